// Reads from JSON that was checked before.

#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace ledger {

/// The string under `key`, or empty when it is absent or null.
std::string text_at(const nlohmann::json& object, const char* key);

/// The whole number under `key`, or nothing when it is absent or null: entries of an earlier version lack
/// keys.
std::optional<std::uint64_t> number_at(const nlohmann::json& object, const char* key);

}  // namespace ledger
