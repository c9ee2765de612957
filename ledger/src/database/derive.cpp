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
      "INSERT INTO history (person, entry) SELECT ?1, ?2"
      " UNION SELECT survivor, ?2 FROM people WHERE person = ?1 ON CONFLICT DO NOTHING",
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
      return derive_letter(connection, entry, body);
    case Topic::input:
      return derive_input(connection, kind, entry, body);
    case Topic::governance:
      return derive_governance(connection, kind, entry, body);
  }
}

/// An entry about an examination or recall of someone who was merged is about both numbers: when the merge is
/// reversed, each has its own history.
void add_history_of_number(Connection& connection, const json& body, std::uint64_t entry) {
  const auto number = connection.first(
      "SELECT recorded_for FROM examinations WHERE recorded_for <> person AND exam ="
      " coalesce((SELECT exam FROM recalls WHERE number = CAST(substr(?1, 2) AS INTEGER)), ?2)",
      [](const Row& row) { return row.text(0); }, text_at(body, "recall"), text_at(body, "exam"));
  if (number) add_history(connection, *number, entry);
}

}  // namespace

void derive(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  derive_topic(connection, kind, entry, body);
  if (const std::string person = text_at(body, "person"); !person.empty())
    add_history(connection, person, entry);
  if (body.contains("recall") || body.contains("exam")) add_history_of_number(connection, body, entry);
}

}  // namespace ledger
