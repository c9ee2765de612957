// Reads from JSON that was checked before.

#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace ledger {

/// The string under `key`, or empty when it is absent or null.
std::string text_at(const nlohmann::json& object, const char* key);

}  // namespace ledger
