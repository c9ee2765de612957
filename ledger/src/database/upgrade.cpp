#include "database/upgrade.h"

#include <string>
#include <vector>

#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/file.h"
#include "schema.h"

namespace ledger {

using engine::Done;
using engine::Result;

namespace {

void drop_derived(Connection& connection) {
  std::vector<std::string> statements;
  connection.each(
      "SELECT type, name FROM sqlite_schema WHERE type IN ('table', 'view') AND name NOT LIKE 'sqlite_%'"
      " AND name NOT IN ('entries', 'documents')",
      [&](const Row& row) { statements.push_back("DROP " + row.text(0) + " \"" + row.text(1) + "\""); });
  for (const std::string& statement : statements) connection.execute(statement);
}

/// In portions: no entry is read while derived tables are written, and memory does not grow with the ledger.
void derive_all(Connection& connection) {
  constexpr std::uint64_t portion = 1000;
  for (std::uint64_t from = 1;; from += portion) {
    std::vector<Entry> entries;
    connection.each(
        "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries"
        " WHERE sequence >= ? AND sequence < ? ORDER BY sequence",
        [&](const Row& row) { entries.push_back(entry_of(row)); }, from, from + portion);
    if (entries.empty()) return;
    for (const Entry& entry : entries) {
      derive(connection, kind_of(entry.kind).value(), entry.sequence, nlohmann::json::parse(entry.body));
    }
  }
}

bool is_of_this_version(Connection& connection) {
  return connection.first("PRAGMA user_version", [](const Row& row) { return row.number(0); }).value_or(0) ==
         schema_version;
}

}  // namespace

Result<Done> upgrade(Connection& connection, const std::function<Result<Done>()>& keep) {
  connection.execute("PRAGMA foreign_keys = OFF");  // tables are dropped one after the other
  connection.execute("BEGIN IMMEDIATE");            // an exception takes it back: the connection ends with it
  if (!is_of_this_version(connection)) {
    if (auto kept = keep(); !kept) return kept;
    drop_derived(connection);
    connection.execute(derived_schema);
    derive_all(connection);
    connection.execute("PRAGMA user_version = " + std::to_string(schema_version));
  }
  connection.execute("COMMIT");
  return Done{};
}

}  // namespace ledger
