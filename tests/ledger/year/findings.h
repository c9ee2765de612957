// What an invented colonoscopy finds, and what the laboratory will say of it.

#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "engine/calendar.h"
#include "ledger/year/dice.h"

namespace year {

/// `exam` of a record, every lesion with its histology.
nlohmann::json examination(const std::string& id, const engine::Date& day, const std::string& indication,
                           Dice& dice);

/// The same with every histology awaited.
nlohmann::json awaiting_histology(nlohmann::json exam);

/// The result that reports `pots` (all of them when empty) of an examination whose lesions have their
/// histology.
nlohmann::json result_for(const nlohmann::json& exam, const std::vector<std::string>& pots,
                          const engine::Date& reported);

/// Ids of the pots, in the order of the record.
std::vector<std::string> pots_of(const nlohmann::json& exam);

/// Another histology for the first lesion: the laboratory looked again.
nlohmann::json reported_otherwise(nlohmann::json exam);

}  // namespace year
