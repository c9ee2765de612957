#include "database/connection.h"
#include "database/derive.h"

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
      "INSERT INTO people (person, name, birth_date, sex, identifiers, needs, status, described, entry)"
      " VALUES (?1, ?2, ?3, ?4, ?5, ?6, '', ?7, ?7)"
      " ON CONFLICT (person) DO UPDATE SET name = ?2, birth_date = ?3, sex = ?4, identifiers = ?5, needs = "
      "?6,"
      " described = ?7, entry = ?7",
      person, name_line(body.at("name")), text_at(body, "birth_date"), text_at(body, "sex"),
      identifiers_line(body.at("identifiers")), needs_line(body.at("needs")), entry);
  for (const json& identifier : body.at("identifiers")) {
    connection.run(
        "INSERT INTO identifiers (value, system, person, entry) VALUES (?, ?, ?, ?)"
        " ON CONFLICT DO NOTHING",
        text_at(identifier, "value"), text_at(identifier, "system"), person, entry);
  }
}

}  // namespace

void derive_person(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  if (kind == Kind::person_registered || kind == Kind::person_amended) {
    describe(connection, entry, body);
    return;
  }
  const std::string status = (kind == Kind::person_died ? "died " : "moved away ") + text_at(body, "on");
  connection.run("UPDATE people SET status = ?, entry = ? WHERE person = ?", status, entry,
                 text_at(body, "person"));
}

}  // namespace ledger
