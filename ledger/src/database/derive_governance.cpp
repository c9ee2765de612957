#include "database/connection.h"
#include "database/derive.h"
#include "engine/canonical.h"

namespace ledger {

using nlohmann::json;

void derive_governance(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  switch (kind) {
    case Kind::ruleset_installed:
      return connection.run("INSERT INTO rulesets (digest, ruleset, edition, entry) VALUES (?, ?, ?, ?)",
                            text_at(body, "document"), text_at(body, "ruleset"), text_at(body, "edition"),
                            entry);
    case Kind::protocol_adopted:
      return connection.run("INSERT INTO protocols (entry, from_day, content) VALUES (?, ?, ?)", entry,
                            text_at(body, "from"), engine::canonical_json(body));
    case Kind::account_named:
      return connection.run(
          "INSERT INTO accounts (account, name, role, entry) VALUES (?1, ?2, ?3, ?4)"
          " ON CONFLICT (account) DO UPDATE SET name = ?2, role = ?3, entry = ?4",
          text_at(body, "account"), text_at(body, "name"), text_at(body, "role"), entry);
    case Kind::account_withdrawn:
      return connection.run("DELETE FROM accounts WHERE account = ?", text_at(body, "account"));
    default:
      return;  // a backup and a checkpoint change nothing
  }
}

void derive_input(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  if (kind == Kind::input_settled) {
    return connection.run("DELETE FROM inputs WHERE entry = ?", body.at("input").get<std::uint64_t>());
  }
  connection.run("INSERT INTO inputs (entry, document, kind, source, line, reason) VALUES (?, ?, ?, ?, ?, ?)",
                 entry, text_at(body, "document"), text_of(kind), text_at(body, "source"),
                 body.at("line").get<std::int64_t>(), text_at(body.at("errors").at(0), "message"));
}

}  // namespace ledger
