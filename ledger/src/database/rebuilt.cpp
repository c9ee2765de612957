#include "database/rebuilt.h"

#include <map>

#include "database/connection.h"
#include "engine/canonical.h"

namespace ledger {

namespace {

std::vector<std::string> derived_tables(Connection& connection) {
  std::vector<std::string> tables;
  connection.each(
      "SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
      " AND name NOT IN ('entries', 'documents') ORDER BY name",
      [&](const Row& row) { tables.push_back(row.text(0)); });
  return tables;
}

/// The row as `name=value` pairs, for a person to find.
std::string shown(const std::string& row) {
  constexpr std::size_t longest = 200;
  return row.size() <= longest ? row : row.substr(0, longest) + "...";
}

std::string columns_of(Connection& connection, const std::string& table, std::string& shown_as) {
  std::string columns;
  const std::string sql = "SELECT name FROM pragma_table_info('" + table + "') ORDER BY cid";
  connection.each_once(sql, [&](const Row& row) {
    const std::string name = row.text(0);
    columns += (columns.empty() ? "" : ", ") + name;
    shown_as += (shown_as.empty() ? "'" : " || ', ") + name + "=' || coalesce(" + name + ", 'null')";
  });
  return columns;
}

void compare(Connection& connection, const std::string& table, std::vector<Difference>& found) {
  std::string shown_as;
  const std::string columns = columns_of(connection, table, shown_as);
  const auto only_in = [&](const char* here, const char* there, const char* what) {
    const std::string sql = "SELECT entry, " + shown_as + " FROM (SELECT " + columns + " FROM " + here + "." +
                            table + " EXCEPT SELECT " + columns + " FROM " + there + "." + table +
                            ") ORDER BY entry";
    connection.each_once(sql, [&](const Row& row) {
      found.push_back({row.count(0), table, what + (": " + shown(row.text(1)))});
    });
  };
  only_in("ledger", "main", "a row does not follow from the entries");
  only_in("main", "ledger", "a row that follows from the entries is missing or changed");
}

using Parts = std::map<std::string, std::string>;

Parts parts_of(Connection& connection, const char* sql) {
  Parts parts;
  connection.each(sql, [&](const Row& row) { parts[row.text(0)] = row.text(1); });
  return parts;
}

/// A trigger that was dropped to falsify the ledger shows here.
void compare_schema(Connection& connection, std::vector<Difference>& found) {
  const Parts expected = parts_of(connection,
                                  "SELECT type || ' ' || name, sql FROM main.sqlite_schema"
                                  " WHERE name NOT LIKE 'sqlite_%'");
  const Parts present = parts_of(connection,
                                 "SELECT type || ' ' || name, sql FROM ledger.sqlite_schema"
                                 " WHERE name NOT LIKE 'sqlite_%'");
  for (const auto& [name, sql] : expected) {
    const auto other = present.find(name);
    if (other == present.end()) {
      found.push_back({0, "schema", "the " + name + " is missing"});
    } else if (other->second != sql) {
      found.push_back({0, "schema", "the " + name + " is not the one that belongs there"});
    }
  }
  for (const auto& [name, sql] : present) {
    if (!expected.contains(name)) found.push_back({0, "schema", "the " + name + " does not belong there"});
  }
}

}  // namespace

std::vector<Difference> differences(Connection& connection) {
  std::vector<Difference> found;
  compare_schema(connection, found);
  for (const std::string& table : derived_tables(connection)) compare(connection, table, found);
  return found;
}

bool has_document(Connection& connection, const std::string& digest) {
  return connection
      .first(
          "SELECT 1 FROM ledger.documents WHERE digest = ?", [](const Row& row) { return row.number(0); },
          digest)
      .has_value();
}

std::vector<std::string> all_documents(Connection& connection) {
  std::vector<std::string> digests;
  connection.each("SELECT digest FROM ledger.documents ORDER BY digest",
                  [&](const Row& row) { digests.push_back(row.text(0)); });
  return digests;
}

std::vector<std::string> broken_documents(Connection& connection) {
  std::vector<std::string> digests;
  connection.each("SELECT digest, bytes FROM ledger.documents ORDER BY digest", [&](const Row& row) {
    if (engine::digest_text(row.text(1)) != row.text(0)) digests.push_back(row.text(0));
  });
  return digests;
}

std::uint64_t first_entry_naming(Connection& connection, const std::string& digest) {
  return connection
      .first(
          "SELECT sequence FROM ledger.entries WHERE json_valid(body)"
          " AND (json_extract(body, '$.document') = ?1 OR EXISTS (SELECT 1 FROM json_each(body, '$.imports') WHERE value = ?1))"
          " ORDER BY sequence LIMIT 1",
          [](const Row& row) { return row.count(0); }, digest)
      .value_or(0);
}

}  // namespace ledger
