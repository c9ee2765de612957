// Each entry is checked against the table of rights before it is written: no operation can forget to.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/result.h"
#include "ledger/accounts.h"
#include "ledger/clock.h"

namespace ledger {

class Connection;

/// Thrown inside a transaction, which is then taken back; becomes the Error at the border (store.h).
struct NotAllowed {
  engine::Error error;
};

std::vector<Account> all_accounts(Connection& connection);
std::optional<Account> find_account(Connection& connection, const std::string& account);

/// Why `account` may not write such an entry, or nothing. Everyone may as long as no account is named.
std::optional<engine::Error> objection(Connection& connection, const std::string& account, Kind kind,
                                       const nlohmann::json& body);

/// As objection, and the entry must be written in the name of the account itself.
std::optional<engine::Error> objection(Connection& connection, const Author& author, Kind kind,
                                       const nlohmann::json& body);

}  // namespace ledger
