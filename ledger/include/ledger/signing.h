// A clinician signs the computed advice, or decides otherwise with a reason. Either gives the examination its
// outcome and opens, moves or closes its recall.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/advice.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

/// What a signature did.
struct Signed {
  std::string exam, person;
  std::uint64_t entry = 0;  ///< Number of the `advice signed` or `advice overridden` entry.
  std::string recall;       ///< `R12`: opened, moved or closed by it. Empty when there is none.
  std::vector<std::string> notes;
};

/// Signs the advice that now stands for examination `exam`. `advice` is the number of the `advice given`
/// entry that the clinician saw; 0 signs whatever stands.
///
/// Only a settled answer can be signed, and not `individualise`: what depends on a doubt needs a decision
/// (override_advice). Fails with `unknown_exam`, `advice_replaced` (another one came
/// since), `advice_not_settled`, `already_signed`, `clinician_missing`, and as ledger.h says.
engine::Result<Signed> sign(Ledger& ledger, const Author& author, const std::string& exam,
                            const std::string& clinician, std::uint64_t advice);

/// What a clinician decides instead of the computed answer.
struct Decision {
  engine::Action action{};
  std::optional<engine::Window> due;  ///< Needed for a colonoscopy, a site check or a repeat examination.
  std::string reason;                 ///< Never empty.
};

/// Keeps the computed answer and puts the decision beside it. Fails like `sign`, and with `reason_missing`,
/// `not_a_decision`, `date_missing`, `date_not_wanted`, `bad_window` (it ends before it begins); it needs
/// neither an advice nor a settled one.
engine::Result<Signed> override_advice(Ledger& ledger, const Author& author, const std::string& exam,
                                       const std::string& clinician, const Decision& decision,
                                       std::uint64_t advice);

}  // namespace ledger
