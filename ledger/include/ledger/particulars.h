// What a printed list says about a recall beyond its line: read from the entries of the person, for the lines
// of a page rather than for all.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

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

/// Something to be thought of before the examination: `anticoagulant`.
struct NeedLine {
  std::string flag;
  std::string since, source;  ///< Empty when the record does not say.
};

struct Particulars {
  std::vector<Contact> contacts;  ///< Since the recall was last opened, oldest first.
  std::string vetted_by, vetted_on, vetted_result;  ///< Empty when it was not vetted since then.
  std::string owner;                                ///< Who has to act when nobody answers.
  std::string booked_for;  ///< Empty when it is not booked now.
  std::string not_ready;   ///< `2026-04-01 to 2026-05-01`, the last such time; empty when there is none.
  std::vector<NeedLine> needs;
  std::string changed_at;    ///< UTC instant of the last entry about the recall.
  std::int64_t changes = 0;  ///< Entries about the recall after the first.
};

/// One for each of `lines`, in their order, as of now.
engine::Result<std::vector<Particulars>> particulars_of(const Ledger& ledger,
                                                        const std::vector<RecallLine>& lines);

/// The hash of the ledger's first entry in hexadecimal digits: no other ledger has it. Empty when the ledger
/// is.
engine::Result<std::string> identity_of(const Ledger& ledger);

}  // namespace ledger
