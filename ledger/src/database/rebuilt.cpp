#include "database/rebuilt.h"

#include <iterator>
#include <map>

#include "database/connection.h"

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

/// A table's columns, and which of them are its key.
struct Shape {
  std::string table, columns, key;
  std::vector<std::string> names;
  std::vector<int> key_columns;
  int entry = 0;  ///< The column of that name.
};

Shape shape_of(Connection& connection, const std::string& table) {
  Shape shape{table, {}, {}, {}, {}, 0};
  const std::string sql = "SELECT name, pk FROM main.pragma_table_info('" + table + "') ORDER BY cid";
  std::map<std::int64_t, int> key;
  connection.each_once(sql, [&](const Row& row) {
    const int column = static_cast<int>(shape.names.size());
    if (row.number(1) > 0) key[row.number(1)] = column;
    if (row.text(0) == "entry") shape.entry = column;
    shape.names.push_back(row.text(0));
    shape.columns += (column == 0 ? "" : ", ") + row.text(0);
  });
  for (const auto& [place, column] : key) {
    shape.key_columns.push_back(column);
    shape.key += (shape.key.empty() ? "" : ", ") + shape.names.at(static_cast<std::size_t>(column));
  }
  return shape;
}

/// The row as `name=value` pairs, for a person to find.
std::string shown(const Shape& shape, const Row& row) {
  constexpr std::size_t longest = 200;
  std::string text;
  for (int i = 0; i < row.columns(); ++i) {
    text += (i == 0 ? "" : ", ") + shape.names.at(static_cast<std::size_t>(i)) + "=" +
            (row.is_null(i) ? "null" : row.text(i));
  }
  return text.size() <= longest ? text : text.substr(0, longest) + "...";
}

bool same(const Row& a, const Row& b, int column) {
  if (a.is_null(column) || b.is_null(column)) return a.is_null(column) && b.is_null(column);
  if (a.is_number(column) || b.is_number(column))
    return a.is_number(column) && b.is_number(column) && a.number(column) == b.number(column);
  return a.view(column) == b.view(column);
}

/// Before (negative), at (0) or after the other's place in the order of the key.
int compare_keys(const Shape& shape, const Row& a, const Row& b) {
  for (const int column : shape.key_columns) {
    if (same(a, b, column)) continue;
    if (a.is_number(column) && b.is_number(column)) return a.number(column) < b.number(column) ? -1 : 1;
    return a.view(column) < b.view(column) ? -1 : 1;
  }
  return 0;
}

/// Both tables are gone through once, beside each other, in the order of their key.
void compare(Connection& connection, const std::string& table, std::vector<Difference>& found) {
  const Shape shape = shape_of(connection, table);
  const auto rows = [&](const char* where) {
    return connection.rows("SELECT " + shape.columns + " FROM " + where + "." + table + " ORDER BY " +
                           shape.key);
  };
  std::vector<Difference> missing;
  const auto too_many = [&](const Row& row) {
    found.push_back(
        {row.count(shape.entry), table, "a row does not follow from the entries: " + shown(shape, row)});
  };
  const auto is_missing = [&](const Row& row) {
    missing.push_back({row.count(shape.entry), table,
                       "a row that follows from the entries is missing or changed: " + shown(shape, row)});
  };
  Rows ledger = rows("ledger"), derived = rows("main");
  while (ledger.here() || derived.here()) {
    const int order = !ledger.here()    ? 1
                      : !derived.here() ? -1
                                        : compare_keys(shape, ledger.row(), derived.row());
    bool equal = order == 0;
    for (int i = 0; equal && i < ledger.row().columns(); ++i) equal = same(ledger.row(), derived.row(), i);
    if (!equal && order <= 0) too_many(ledger.row());
    if (!equal && order >= 0) is_missing(derived.row());
    if (order <= 0) ledger.next();
    if (order >= 0) derived.next();
  }
  std::move(missing.begin(), missing.end(), std::back_inserter(found));
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

}  // namespace ledger
