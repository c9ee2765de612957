#include "ledger/particulars.h"

#include <nlohmann/json.hpp>

#include "database/derive.h"
#include "database/view.h"
#include "json_fields.h"
#include "ledger/kind.h"

namespace ledger {

using engine::Result;
using nlohmann::json;

namespace {

void read_entry(Particulars& found, Kind kind, const json& body) {
  if (text_at(body, "state") == "opened") found.contacts.clear();  // redated or reopened: tried anew
  if (kind == Kind::recall_invited) {
    found.contacts.push_back(
        {text_at(body, "on"), text_at(body, "means"), body.value("attempt", std::int64_t{0})});
  }
  if (kind == Kind::recall_not_ready) found.not_ready = text_at(body, "from") + " to " + text_at(body, "to");
  found.booked_for = kind == Kind::recall_booked ? text_at(body, "on") : "";
}

void read_vetting(Connection& connection, const RecallLine& line, Particulars& found) {
  connection.each(
      "SELECT vetted_by, vetted_on, vetted_result, owner FROM recalls WHERE number = ?",
      [&](const Row& row) {
        found.vetted_by = row.text(0);
        found.vetted_on = row.text(1);
        found.vetted_result = row.text(2);
        found.owner = row.text(3);
      },
      recall_number(line.recall));
}

void read_recall(Connection& connection, const RecallLine& line, Particulars& found) {
  std::int64_t entries = 0;
  connection.each(
      "SELECT e.at, e.kind, e.body FROM history AS h JOIN entries AS e ON e.sequence = h.entry"
      " WHERE h.person = ? AND e.subject = ? ORDER BY h.entry",
      [&](const Row& row) {
        ++entries;
        found.changed_at = row.text(0);
        if (const auto kind = kind_of(row.text(1))) read_entry(found, *kind, json::parse(row.text(2)));
      },
      line.person.person, "recall:" + line.recall);
  found.changes = entries == 0 ? 0 : entries - 1;
}

void read_needs(Connection& connection, const std::string& person, std::vector<NeedLine>& needs) {
  connection.each(
      "SELECT e.body FROM people AS p JOIN entries AS e ON e.sequence = p.described"
      " WHERE p.person = ? AND p.needs <> ''",
      [&](const Row& row) {
        const json body = json::parse(row.text(0));
        for (const json& need : body.value("needs", json::array())) {
          needs.push_back({text_at(need, "flag"), text_at(need, "since"), text_at(need, "source")});
        }
      },
      person);
}

}  // namespace

Result<std::vector<Particulars>> particulars_of(const Ledger& ledger, const std::vector<RecallLine>& lines) {
  return viewed<std::vector<Particulars>>(ledger, [&](Connection& connection, auto& all) {
    for (const RecallLine& line : lines) {
      Particulars& found = all.emplace_back();
      read_recall(connection, line, found);
      read_vetting(connection, line, found);
      read_needs(connection, line.person.person, found.needs);
    }
  });
}

Result<std::string> identity_of(const Ledger& ledger) {
  return viewed<std::string>(ledger, [](Connection& connection, std::string& identity) {
    identity = connection
                   .first("SELECT hash FROM entries WHERE sequence = 1",
                          [](const Row& row) { return engine::hexadecimal(row.digest(0)); })
                   .value_or("");
  });
}

}  // namespace ledger
