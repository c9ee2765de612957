// What becomes of letters that went out when something else is decided: they are marked, or right again.

#pragma once

#include <cstdint>

#include <nlohmann/json.hpp>

#include "ledger/kind.h"

namespace ledger {

class Connection;

/// A letter that says what was signed last is right, also when the advice was given again in between.
void derive_letters_signed(Connection& connection, std::uint64_t entry, const nlohmann::json& body);

/// Those about the examination, and those about later steps of the plan that was signed with the advice.
void derive_letters_superseded(Connection& connection, std::uint64_t entry, const nlohmann::json& body);

/// A clinician moves the date of a recall, closes it, or opens it again.
void derive_letters_of_recall(Connection& connection, Kind kind, std::uint64_t entry,
                              const nlohmann::json& body);

}  // namespace ledger
