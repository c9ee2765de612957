// One person and the whole of what the ledger holds about them.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/calendar.h"
#include "engine/record.h"
#include "engine/result.h"
#include "ledger/entry.h"
#include "ledger/ledger.h"

namespace ledger {

/// Who a list line is about, as printed.
struct PersonLine {
  std::string person;       ///< `P17`: ours, for this ledger only.
  std::string name;         ///< `Okafor, Mrs Ada`; empty when none was given.
  std::string birth_date;   ///< ISO 8601; empty when not known.
  std::string sex;          ///< `female`, `male`, `unknown`; empty when not given.
  std::string identifiers;  ///< `nhs-number 9990000018; hospital-number H12`.
  std::string needs;        ///< `anticoagulant; interpreter`; empty when there are none.
  std::string status;       ///< Empty, `died 2026-02-01` or `moved away 2026-02-01`.
};

struct PatientHistory {
  PersonLine person;
  std::vector<Entry> entries;  ///< All entries about this person, oldest first.
};

/// Finds a person by our number (`P17`), by `system:value`, or by the bare value of any identifier; spaces in
/// values do not matter. Fails with `unknown_person`, or `several_people` (naming the systems).
engine::Result<PersonLine> find_person(const Ledger& ledger, const std::string& text);

engine::Result<PatientHistory> history(const Ledger& ledger, const std::string& text);

}  // namespace ledger
