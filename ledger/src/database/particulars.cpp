#include "ledger/particulars.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "database/derive.h"
#include "database/view.h"
#include "json_fields.h"
#include "ledger/kind.h"

namespace ledger {

using engine::Result;
using nlohmann::json;

namespace {

void read_entry(Particulars& found, Kind kind, const json& body) {
  const std::string state = text_at(body, "state");
  // Redated or reopened: tried anew.
  if (state == "opened" && kind != Kind::recall_cancelled) found.contacts.clear();
  if (kind == Kind::recall_invited) {
    found.contacts.push_back(
        {text_at(body, "on"), text_at(body, "means"), body.value("attempt", std::int64_t{0})});
  }
  if (kind == Kind::recall_not_ready) found.not_ready = text_at(body, "from") + " to " + text_at(body, "to");
  if (kind == Kind::recall_booked) found.booked_for = text_at(body, "on");
  if (state != "booked") found.booked_for.clear();
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

std::vector<std::string> lines_at(const json& object, const char* key) {
  std::vector<std::string> lines;
  for (const json& line : object.value(key, json::array())) lines.push_back(line.get<std::string>());
  return lines;
}

json object_at(const json& body, const char* key) {
  const json object = body.value(key, json());
  return object.is_object() ? object : json::object();
}

/// What the person's records told last: needs, how they are reached, who their family doctor is.
void read_description(Connection& connection, const std::string& person, Particulars& found) {
  connection.each(
      "SELECT e.body FROM people AS p JOIN entries AS e ON e.sequence = p.described WHERE p.person = ?",
      [&](const Row& row) {
        const json body = json::parse(row.text(0));
        if (const json needs = body.value("needs", json()); needs.is_array()) {
          for (const json& need : needs)
            found.needs.push_back({text_at(need, "flag"), text_at(need, "since"), text_at(need, "source")});
        }
        const json contact = object_at(body, "contact"), doctor = object_at(body, "family_doctor");
        found.reached_at = {text_at(contact, "telephone"), text_at(contact, "email"),
                            lines_at(contact, "address")};
        found.family_doctor = {text_at(doctor, "name"), text_at(doctor, "practice"),
                               lines_at(doctor, "address")};
      },
      person);
}

/// The person's last colonoscopy, as its record was given; the last examination where there was none.
std::optional<engine::Examination> last_examination(Connection& connection, const std::string& person) {
  const auto body = connection.first(
      "SELECT e.body FROM examinations AS x JOIN entries AS e ON e.sequence = x.recorded WHERE x.person = ?"
      " ORDER BY json_extract(e.body, '$.record.exam.procedure') IS 'colonoscopy' DESC, x.date DESC, x.exam "
      "DESC"
      " LIMIT 1",
      [](const Row& row) { return row.text(0); }, person);
  if (!body) return std::nullopt;
  const auto record = engine::read_record(json::parse(*body).at("record").dump(), person);
  return record ? std::optional(record->exam) : std::nullopt;
}

}  // namespace

Result<Particulars> particulars_of(const Ledger& ledger, const RecallLine& line) {
  return viewed<Particulars>(ledger, [&](Connection& connection, Particulars& found) {
    read_recall(connection, line, found);
    read_vetting(connection, line, found);
    read_description(connection, line.person.person, found);
    found.needs = in_order(std::move(found.needs), last_examination(connection, line.person.person));
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
