#include "database/connection.h"
#include "database/derive.h"
#include "database/derive_merges.h"

namespace ledger {

namespace {

using nlohmann::json;

/// `Okafor, Mrs Ada`
std::string name_line(const json& name) {
  if (!name.is_object()) return {};
  std::string line = text_at(name, "family");
  for (const char* part : {"prefix", "given"}) {
    const std::string text = text_at(name, part);
    if (text.empty()) continue;
    line += line.empty() ? "" : (line.find(',') == std::string::npos ? ", " : " ");
    line += text;
  }
  return line;
}

void add(std::string& line, const std::string& text) {
  line += (line.empty() ? "" : "; ") + text;
}

std::string identifiers_line(const json& identifiers) {
  std::string line;
  for (const json& identifier : identifiers) {
    add(line, text_at(identifier, "system") + " " + text_at(identifier, "value"));
  }
  return line;
}

std::string needs_line(const json& needs) {
  std::string line;
  for (const json& need : needs) add(line, text_at(need, "flag"));
  return line;
}

/// Every entry that describes a person holds the whole description.
void describe(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string person = text_at(body, "person");
  connection.run(
      "INSERT INTO people (person, name, birth_date, sex, identifiers, needs, status, own_identifiers,"
      " own_status, survivor, merged_into, merge, described, entry)"
      " VALUES (?1, ?2, ?3, ?4, ?5, ?6, '', ?5, '', ?1, '', NULL, ?7, ?7)"
      " ON CONFLICT (person) DO UPDATE SET name = ?2, birth_date = ?3, sex = ?4, own_identifiers = ?5,"
      " needs = ?6, described = ?7, entry = ?7",
      person, name_line(body.at("name")), text_at(body, "birth_date"), text_at(body, "sex"),
      identifiers_line(body.at("identifiers")), needs_line(body.at("needs")), entry);
  for (const json& identifier : body.at("identifiers")) {
    connection.run(
        "INSERT INTO identifiers (value, system, person, entry) VALUES (?, ?, ?, ?)"
        " ON CONFLICT DO NOTHING",
        text_at(identifier, "value"), text_at(identifier, "system"), person, entry);
  }
  derive_ages(connection, person);
  join_merged(connection, person, entry);
}

void set_status(Connection& connection, const std::string& status, std::uint64_t entry, const json& body) {
  const std::string person = text_at(body, "person");
  connection.run("UPDATE people SET own_status = ?, entry = ? WHERE person = ?", status, entry, person);
  join_merged(connection, person, entry);
}

void tell_apart(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run("INSERT INTO told_apart (person, other, entry) VALUES (?, ?, ?) ON CONFLICT DO NOTHING",
                 text_at(body, "person"), text_at(body, "other"), entry);
  add_history(connection, text_at(body, "other"), entry);
}

}  // namespace

void derive_person(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  switch (kind) {
    case Kind::person_died:
      return set_status(connection, "died " + text_at(body, "on"), entry, body);
    case Kind::person_moved_away:
      return set_status(connection, "moved away " + text_at(body, "on"), entry, body);
    case Kind::person_death_reversed:
    case Kind::person_moved_back:
      return set_status(connection, "", entry, body);
    case Kind::person_merged:
      return derive_merge(connection, entry, body);
    case Kind::person_merge_reversed:
      return derive_merge_reversed(connection, entry, body);
    case Kind::person_told_apart:
      return tell_apart(connection, entry, body);
    default:
      return describe(connection, entry, body);
  }
}

}  // namespace ledger
