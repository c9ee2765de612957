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

/// An advice that a clinician has looked at: the examination, and the number of its `advice given` entry.
struct SeenAdvice {
  std::string exam;
  std::uint64_t advice = 0;  ///< Never 0: a batch signs nothing that was not seen.
};

/// What became of one advice of a batch.
struct SignedInBatch {
  enum class What : std::uint8_t { signed_now, signed_before, refused };
  What what{};
  Signed done;            ///< When signed now.
  engine::Errors errors;  ///< When refused; as of `sign`, and `advice_not_named` when the number is 0.
};

/// Signs exactly the advices that are named, each by itself: one that is refused stops none of the others. An
/// advice that is signed already counts as done, so that the same batch again changes nothing. One for each
/// of `batch`, in its order. Fails with `clinician_missing`, and as ledger.h says: what was signed before
/// that stays signed.
engine::Result<std::vector<SignedInBatch>> sign_batch(Ledger& ledger, const Author& author,
                                                      const std::string& clinician,
                                                      const std::vector<SeenAdvice>& batch);

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
