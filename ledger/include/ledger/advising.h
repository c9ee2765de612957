// Advice that is given again because the unit's rules have changed, not the findings.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/advice.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace ledger {

struct AdvisedAgain {
  std::string exam, person;
  std::uint64_t advice = 0;  ///< Number of the `advice given` entry; 0 when what stands is still the answer.
  std::vector<engine::Advice>
      answers;             ///< One for each ruleset in force, in their order; empty with `advice` 0.
  std::size_t chosen = 0;  ///< Index of the answer that counts.
  std::vector<std::string> notes;
};

/// Gives advice again for examination `exam` when other rulesets or settings are in force than those that
/// answered, or when its record has changed; else changes nothing. What stood, signed or not, is superseded:
/// the new answer has to be signed, and until then an open recall stands under review. Fails with
/// `unknown_exam`, `no_ruleset`, and as ledger.h says.
engine::Result<AdvisedAgain> advise_again(Ledger& ledger, const Author& author, const Protocol& protocol,
                                          const std::string& exam);

/// Examinations without an outcome that other rulesets answered than those of `protocol`, in the order of
/// their days: a signature would be one under rules that are not in force.
engine::Result<std::vector<std::string>> answered_by_other_rulesets(const Ledger& ledger,
                                                                    const Protocol& protocol);

}  // namespace ledger
