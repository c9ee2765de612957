// What stands for an examination: what was signed, and the date to which a clinician has moved it since.

#pragma once

#include <optional>
#include <string>

#include "database/letter_cases.h"
#include "engine/advice.h"

namespace ledger {

struct Standing {
  std::uint64_t tells = 0;      ///< The entry that set it: a signature or a redate.
  std::uint64_t signature = 0;  ///< 0 in a recall of a ledger's first version.
  std::uint64_t advice = 0;
  engine::Action action{};
  std::optional<engine::Window> due;
  std::string clinician;  ///< Who signed.
  std::optional<MovedDate> moved;
  nlohmann::json signed_body;  ///< Of the signature; null without one.
};

/// Of the signature of the examination, which has one.
Standing standing_of_signature(Transaction& transaction, const LetterCase& about);
/// Of the recall that follows the examination, which has one.
Standing standing_of_recall(Transaction& transaction, const LetterCase& about);

/// `surveillance colonoscopy, due 2029-03-10`
std::string line_of(const Standing& standing);

}  // namespace ledger
