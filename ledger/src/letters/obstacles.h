// Why a letter cannot go out by itself: the person is gone or in dispute, the step does not stand any more.

#pragma once

#include <map>
#include <optional>
#include <string>

#include "database/letter_cases.h"
#include "engine/result.h"

namespace ledger {

/// Whose identity is in dispute: person to the entry of the input that waits.
using Disputes = std::map<std::string, std::uint64_t>;
Disputes disputes_in(Transaction& transaction);

/// Whatever the letter is about.
std::optional<engine::Error> obstacle_of(const PersonLine& person, const Disputes& disputes);

/// A letter about the recall that follows the examination.
std::optional<engine::Error> obstacle_of(const CaseRecall& recall);

/// A letter about what was signed for the examination: closed since, or overtaken.
std::optional<engine::Error> obstacle_of_signature(const LetterCase& about);

/// A patient hears of a cancer from a person, not from a letter.
engine::Error person_first(const std::string& exam);

}  // namespace ledger
