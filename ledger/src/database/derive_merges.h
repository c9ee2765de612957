// Two numbers that are one person. The number that was merged keeps its row, its identifiers and its history;
// examinations and recalls stand under the survivor, so that every list follows.

#pragma once

#include <cstdint>
#include <string>

#include <nlohmann/json.hpp>

namespace ledger {

class Connection;

void derive_merge(Connection& connection, std::uint64_t entry, const nlohmann::json& body);
void derive_merge_reversed(Connection& connection, std::uint64_t entry, const nlohmann::json& body);

/// Puts together what the survivor of `person` shows of all that were merged: identifiers, death, move away.
void join_merged(Connection& connection, const std::string& person, std::uint64_t entry);

}  // namespace ledger
