// What each tag of a letter says: the facts put into words.

#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "engine/calendar.h"
#include "ledger/letters.h"
#include "letters/unit.h"

namespace cli {

/// The letter apart from its facts.
struct LetterSetting {
  UnitDetails unit;
  engine::Date today;
  std::string guideline;  ///< Title of the ruleset that answered; empty when none did.
};

/// Text by tag, lists of text, and flags; `unit.name` stands under `unit`. Tags that say nothing are left
/// out. All of it is fit to be printed: one line each, no control characters.
nlohmann::json letter_fields(const ledger::LetterFacts& facts, const LetterSetting& setting);

}  // namespace cli
