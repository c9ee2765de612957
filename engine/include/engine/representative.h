// Representative records: made, not collected, so that two rulesets can be compared where their rules draw
// their lines. Deterministic and pure.
//
// The numbers come from the rulesets: sizes, counts and ages are tried at every number that they write, just
// below and just above. The findings, removals, earlier examinations and circumstances are short lists of
// what colonoscopy meets
// (`common practice`). What differs between two rulesets outside these lists is not found.

#pragma once

#include <compare>
#include <cstdint>
#include <functional>
#include <span>
#include <string>

#include "engine/decimal.h"
#include "engine/record.h"

namespace engine {

/// How much a person has to take in to see a record: the fewer the better an example. Compared from the top.
struct Complexity {
  std::int64_t circumstances =
      0;  ///< Whatever is not ordinary: preparation, earlier examinations, age, conditions.
  std::int64_t entries = 0;  ///< Kinds of polyps.
  std::int64_t polyps = 0;
  std::int64_t size = 0;     ///< Tenths of a millimetre of all entries.
  std::int64_t unusual = 0;  ///< Removal, histology and site other than the plainest.
  friend auto operator<=>(const Complexity&, const Complexity&) = default;
};

struct RepresentativeRecord {
  const Record& record;  ///< Complete: nothing is open. It has no canonical form and no digest.
  Complexity complexity;
};

/// Calls `use` with one record after the other, always in the same order. `numbers` are those of the
/// rulesets' rules (numeric_literals). The reference is valid during the call.
void each_representative_record(std::span<const Decimal> numbers,
                                const std::function<void(const RepresentativeRecord&)>& use);

/// The day of every such record's examination.
Date representative_day();

/// What is to be seen in such a record: `3 tubular adenomas of 8 mm in the sigmoid colon; aged 76`. The
/// ordinary (aged 60, colonoscopy to the caecum, well prepared, en bloc with clear margins, nothing earlier)
/// is not said.
std::string in_plain_words(const Record& record);

}  // namespace engine
