#include "database/derive.h"

#include <charconv>
#include <stdexcept>

#include "database/connection.h"

namespace ledger {

using nlohmann::json;

std::int64_t recall_number(const std::string& recall) {
  std::int64_t number = 0;
  const char* end = recall.data() + recall.size();
  if (recall.size() < 2 || recall.front() != 'R')
    throw std::invalid_argument("`" + recall + "` is no recall");
  const auto [stop, fault] = std::from_chars(recall.data() + 1, end, number);
  if (fault != std::errc{} || stop != end) throw std::invalid_argument("`" + recall + "` is no recall");
  return number;
}

void add_history(Connection& connection, const std::string& person, std::uint64_t entry) {
  connection.run(
      "WITH RECURSIVE above (person) AS (SELECT ?1 UNION"
      " SELECT p.merged_into FROM people AS p JOIN above ON p.person = above.person WHERE p.merged_into <> "
      "'')"
      " INSERT INTO history (person, entry, own) SELECT person, ?2, person = ?1 FROM above WHERE true"
      " ON CONFLICT (person, entry) DO UPDATE SET own = max(own, excluded.own)",
      person, entry);
}

namespace {

void derive_topic(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  switch (topic_of(kind)) {
    case Topic::person:
      return derive_person(connection, kind, entry, body);
    case Topic::examination:
      return derive_examination(connection, kind, entry, body);
    case Topic::advice:
      return derive_advice(connection, kind, entry, body);
    case Topic::recall:
      return derive_recall(connection, kind, entry, body);
    case Topic::letter:
      return derive_letter(connection, kind, entry, body);
    case Topic::input:
      return derive_input(connection, kind, entry, body);
    case Topic::governance:
      return derive_governance(connection, kind, entry, body);
  }
}

/// An entry about an examination or recall is about the number that the examination was recorded for, whoever
/// stands for it now: when a merge is reversed, each number has its own history.
std::string number_of(Connection& connection, const json& body) {
  std::string person = text_at(body, "person");
  if (!body.contains("recall") && !body.contains("exam")) return person;
  return connection
      .first(
          "SELECT recorded_for FROM examinations WHERE exam ="
          " coalesce((SELECT exam FROM recalls WHERE number = CAST(substr(?1, 2) AS INTEGER)), ?2)",
          [](const Row& row) { return row.text(0); }, text_at(body, "recall"), text_at(body, "exam"))
      .value_or(person);
}

}  // namespace

void derive(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  derive_topic(connection, kind, entry, body);
  if (const std::string number = number_of(connection, body); !number.empty())
    add_history(connection, number, entry);
}

}  // namespace ledger
