#include "database/derive.h"

#include <charconv>
#include <stdexcept>

#include "database/connection.h"

namespace ledger {

std::int64_t recall_number(const std::string& recall) {
  std::int64_t number = 0;
  const char* end = recall.data() + recall.size();
  if (recall.size() < 2 || recall.front() != 'R')
    throw std::invalid_argument("`" + recall + "` is no recall");
  const auto [stop, fault] = std::from_chars(recall.data() + 1, end, number);
  if (fault != std::errc{} || stop != end) throw std::invalid_argument("`" + recall + "` is no recall");
  return number;
}

void derive(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body) {
  if (kind <= Kind::person_moved_away) {
    derive_person(connection, kind, entry, body);
  } else if (kind <= Kind::histology_amended) {
    derive_examination(connection, kind, entry, body);
  } else if (kind <= Kind::advice_superseded) {
    derive_advice(connection, kind, entry, body);
  } else if (kind <= Kind::recall_reopened) {
    derive_recall(connection, kind, entry, body);
  } else {
    derive_governance(connection, kind, entry, body);
  }
  const std::string person = text_at(body, "person");
  if (!person.empty()) connection.run("INSERT INTO history (person, entry) VALUES (?, ?)", person, entry);
}

void derive_governance(Connection& connection, Kind kind, std::uint64_t entry, const nlohmann::json& body) {
  switch (kind) {
    case Kind::ruleset_installed:
      connection.run("INSERT INTO rulesets (digest, ruleset, edition, entry) VALUES (?, ?, ?, ?)",
                     text_at(body, "document"), text_at(body, "ruleset"), text_at(body, "edition"), entry);
      return;
    case Kind::input_refused:
    case Kind::input_unmatched:
      connection.run(
          "INSERT INTO inputs (entry, document, kind, source, line, reason) VALUES (?, ?, ?, ?, ?, ?)", entry,
          text_at(body, "document"), text_of(kind), text_at(body, "source"),
          body.at("line").get<std::int64_t>(), text_at(body.at("errors").at(0), "message"));
      return;
    case Kind::input_settled:
      connection.run("DELETE FROM inputs WHERE entry = ?", body.at("input").get<std::uint64_t>());
      return;
    default:
      return;  // a checkpoint changes nothing
  }
}

}  // namespace ledger
