// What a printed list says about a recall beyond its line: read from the entries of the person, for the lines
// that are printed rather than for all.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/record.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"

namespace ledger {

/// One attempt to reach the person.
struct Contact {
  std::string day;  ///< ISO 8601.
  std::string means;
  std::int64_t attempt = 0;  ///< 1, 2, 3 ...
};

/// Something to be thought of before the examination: `anticoagulant`. docs/record-format.md has the flags
/// that are known.
struct NeedLine {
  std::string flag;
  std::string since, source;  ///< Empty when the record does not say.
};

/// `needs` of a record and what follows from `last`, the examination before, in the order in which they are
/// thought of: blood, kidneys, sugar; what went wrong last time; what else is in the way. One that is not
/// known is given as it is, after the others. Pure.
std::vector<NeedLine> in_order(std::vector<NeedLine> needs, const std::optional<engine::Examination>& last);

struct Particulars {
  std::vector<Contact> contacts;                    ///< Since the recall was last opened, oldest first.
  std::string vetted_by, vetted_on, vetted_result;  ///< Empty when it was not vetted since then.
  std::string owner;                                ///< Who has to act when nobody answers.
  std::string booked_for;                           ///< Empty when it is not booked now.
  std::string not_ready;  ///< `2026-04-01 to 2026-05-01`, the last such time; empty when there is none.
  std::vector<NeedLine>
      needs;  ///< As in_order() gives them: of the last colonoscopy, else the last examination.
  engine::Contact reached_at;  ///< As the person's records told last. Empty where none did.
  engine::FamilyDoctor family_doctor;
  std::string changed_at;    ///< UTC instant of the last entry about the recall.
  std::int64_t changes = 0;  ///< Entries about the recall after the first.
};

/// As of now.
engine::Result<Particulars> particulars_of(const Ledger& ledger, const RecallLine& line);

/// The hash of the ledger's first entry in hexadecimal digits: no other ledger has it. Empty when the ledger
/// is.
engine::Result<std::string> identity_of(const Ledger& ledger);

}  // namespace ledger
