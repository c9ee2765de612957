#include "database/rights_check.h"

#include "database/connection.h"
#include "json_fields.h"

namespace ledger {

using engine::Error;

namespace {

#define COLUMNS "SELECT account, name, role FROM accounts"

Account account_from(const Row& row) {
  return {row.text(0), row.text(1), role_of(row.text(2)).value_or(Role::auditor)};
}

bool has_accounts(Connection& connection) {
  return connection.first("SELECT 1 FROM accounts LIMIT 1", [](const Row& row) { return row.number(0); })
      .has_value();
}

Error unknown(const std::string& account) {
  return {"unknown_account",
          "the account `" + account + "` has no role in this ledger",
          {},
          "a consultant names it with `accounts name`"};
}

}  // namespace

std::vector<Account> all_accounts(Connection& connection) {
  std::vector<Account> found;
  connection.each(COLUMNS " ORDER BY account", [&](const Row& row) { found.push_back(account_from(row)); });
  return found;
}

std::optional<Account> find_account(Connection& connection, const std::string& account) {
  return connection.first(COLUMNS " WHERE account = ?", account_from, account);
}

std::optional<Error> objection(Connection& connection, const std::string& account, Kind kind,
                               const nlohmann::json& body) {
  if (!has_accounts(connection)) return std::nullopt;
  const auto holder = find_account(connection, account);
  if (!holder) return unknown(account);
  if (!may_write(holder->role, kind)) {
    return Error{"not_allowed",
                 "`" + account + "` is " + std::string(text_of(holder->role)) + ": `" +
                     std::string(text_of(kind)) + "` is not theirs to write",
                 {},
                 may_write(Role::administrator, kind) ? "an administrator or a consultant does it"
                                                      : "a consultant does it under their own account"};
  }
  const std::string clinician = text_at(body, "clinician");
  if (is_decision(kind) && clinician != holder->name) {
    return Error{"not_your_name",
                 "the account `" + account + "` is that of `" + holder->name + "`: it cannot decide as `" +
                     clinician + "`",
                 {},
                 "everyone signs under their own account"};
  }
  return std::nullopt;
}

std::optional<Error> objection(Connection& connection, const Author& author, Kind kind,
                               const nlohmann::json& body) {
  const std::string& account = author.account.empty() ? author.actor : author.account;
  if (auto error = objection(connection, account, kind, body)) return error;
  if (author.actor == account || !has_accounts(connection)) return std::nullopt;
  return Error{"not_your_account",
               "entries of the account `" + account + "` cannot be written as `" + author.actor + "`",
               {},
               "leave `--actor` out: this ledger names its accounts"};
}

#undef COLUMNS

}  // namespace ledger
