#include "database/derive_merges.h"

#include <algorithm>
#include <vector>

#include "database/connection.h"
#include "database/derive.h"

namespace ledger {

using nlohmann::json;

namespace {

/// Parts of `first; second` that `line` does not have yet.
void add_parts(std::string& line, const std::string& more) {
  constexpr std::string_view between = "; ";
  for (std::size_t start = 0; start < more.size();) {
    const std::size_t end = std::min(more.find(between, start), more.size());
    const std::string part = more.substr(start, end - start);
    const std::string padded = std::string(between) + line + std::string(between);
    if (padded.find(std::string(between) + part + std::string(between)) == std::string::npos)
      line += (line.empty() ? "" : std::string(between)) + part;
    start = end + between.size();
  }
}

/// A death counts before a move away.
void take_status(std::string& status, const std::string& other) {
  if (status.empty() || (other.starts_with("died") && !status.starts_with("died"))) status = other;
}

std::string survivor_of(Connection& connection, const std::string& person) {
  return connection
      .first(
          "SELECT survivor FROM people WHERE person = ?", [](const Row& row) { return row.text(0); }, person)
      .value_or(person);
}

/// `person` and all that were merged into it stand for `survivor` from now on.
void set_survivor(Connection& connection, const std::string& person, const std::string& survivor) {
  connection.run(
      "WITH RECURSIVE tree (person) AS (SELECT ?1 UNION"
      " SELECT p.person FROM people AS p JOIN tree ON p.merged_into = tree.person)"
      " UPDATE people SET survivor = ?2 WHERE person IN (SELECT person FROM tree)",
      person, survivor);
}

/// Examinations stand under the survivor of the number that they were recorded for, recalls with them.
void move_examinations(Connection& connection, const std::string& survivor, std::uint64_t entry) {
  connection.run(
      "UPDATE examinations SET person = ?1, entry = ?2 WHERE person <> ?1 AND recorded_for IN"
      " (SELECT person FROM people WHERE survivor = ?1)",
      survivor, entry);
  connection.run(
      "UPDATE recalls SET person = ?1, entry = ?2 WHERE person <> ?1 AND exam IN"
      " (SELECT exam FROM examinations WHERE person = ?1)",
      survivor, entry);
  derive_ages(connection, survivor);
}

}  // namespace

void join_merged(Connection& connection, const std::string& person, std::uint64_t entry) {
  const std::string survivor = survivor_of(connection, person);
  std::string identifiers, status;
  connection.each(
      "SELECT own_identifiers, own_status FROM people WHERE person = ?1 OR"
      " (merged_into <> '' AND survivor = ?1) ORDER BY person <> ?1, described, person",
      [&](const Row& row) {
        add_parts(identifiers, row.text(0));
        take_status(status, row.text(1));
      },
      survivor);
  connection.run("UPDATE people SET identifiers = ?, status = ?, entry = ? WHERE person = ?", identifiers,
                 status, entry, survivor);
}

void derive_merge(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string person = text_at(body, "person"), merged = text_at(body, "merged");
  connection.run("UPDATE people SET merged_into = ?2, merge = ?3, status = ?4, entry = ?3 WHERE person = ?1",
                 merged, person, entry, "merged into " + person);
  set_survivor(connection, merged, person);
  connection.run(
      "INSERT INTO history (person, entry, own) SELECT ?1, entry, 0 FROM history WHERE person = ?2"
      " ON CONFLICT DO NOTHING",
      person, merged);
  add_history(connection, merged, entry);
  move_examinations(connection, person, entry);
  join_merged(connection, person, entry);
}

void derive_merge_reversed(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string person = text_at(body, "person"), merged = text_at(body, "merged");
  connection.run("UPDATE people SET merged_into = '', merge = NULL, entry = ?2 WHERE person = ?1", merged,
                 entry);
  set_survivor(connection, merged, merged);
  connection.run(
      "DELETE FROM history WHERE person = ?1 AND own = 0 AND entry IN"
      " (SELECT entry FROM history WHERE person = ?2)",
      person, merged);
  add_history(connection, merged, entry);
  move_examinations(connection, merged, entry);
  join_merged(connection, person, entry);
  join_merged(connection, merged, entry);
}

}  // namespace ledger
