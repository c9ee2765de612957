// What follows from an entry: the one place that writes derived tables. It looks at nothing but the entry and
// the derived tables themselves, so that replaying all entries gives the same rows again.

#pragma once

#include <cstdint>
#include <string>

#include <nlohmann/json.hpp>

#include "json_fields.h"
#include "ledger/kind.h"

namespace ledger {

class Connection;

/// Writes the rows that follow from entry number `entry`. Throws nlohmann::json::exception when the body is
/// not what its kind asks for.
void derive(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);

// By what the entry is about; derive() chooses.
void derive_person(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_examination(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_advice(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_recall(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_letter(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_governance(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);
void derive_input(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body);

/// Notes that the entry is about the number `person`, and about all that it was merged into.
void add_history(Connection& connection, const std::string& person, std::uint64_t entry);
/// The completed years of age at the due dates of the person's recalls.
void derive_ages(Connection& connection, const std::string& person);

/// 12 for `R12`. Throws when `recall` has another form.
std::int64_t recall_number(const std::string& recall);

}  // namespace ledger
