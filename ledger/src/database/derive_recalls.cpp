#include "database/connection.h"
#include "database/derive.h"

namespace ledger {

namespace {

using nlohmann::json;

/// `recall opened` holds the whole plan.
void open(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run(
      "INSERT INTO recalls (number, person, exam, advice, action, ruleset, rule, clinician, risk, state, "
      "open,"
      " due, due_to, late_on, interval_days, under_review, entry)"
      " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 'opened', 1, ?, ?, ?, ?, 0, ?)",
      recall_number(text_at(body, "recall")), text_at(body, "person"), text_at(body, "exam"),
      body.at("advice").get<std::uint64_t>(), text_at(body, "action"), text_at(body, "ruleset"),
      text_at(body, "rule"), text_at(body, "clinician"), body.at("risk").get<std::int64_t>(),
      text_at(body, "due"), text_at(body, "due_to"), text_at(body, "late_on"),
      body.at("interval_days").get<std::int64_t>(), entry);
}

void redate(Connection& connection, std::uint64_t entry, const json& body) {
  const std::int64_t number = recall_number(text_at(body, "recall"));
  connection.run(
      "UPDATE recalls SET due = ?2, due_to = ?3, late_on = ?4, interval_days = ?5, entry = ?6 WHERE number = "
      "?1",
      number, text_at(body, "due"), text_at(body, "due_to"), text_at(body, "late_on"),
      body.at("interval_days").get<std::int64_t>(), entry);
  if (!body.contains("advice")) return;
  // A new signature replaces the plan and ends the review; a change of date alone does not.
  connection.run(
      "UPDATE recalls SET advice = ?2, action = ?3, ruleset = ?4, rule = ?5, clinician = ?6, risk = ?7,"
      " under_review = 0 WHERE number = ?1",
      number, body.at("advice").get<std::uint64_t>(), text_at(body, "action"), text_at(body, "ruleset"),
      text_at(body, "rule"), text_at(body, "clinician"), body.at("risk").get<std::int64_t>());
}

void pause(Connection& connection, std::uint64_t entry, const json& body) {
  const std::int64_t number = recall_number(text_at(body, "recall"));
  connection.run("INSERT INTO not_ready (recall, first, last, entry) VALUES (?, ?, ?, ?)", number,
                 text_at(body, "from"), text_at(body, "to"), entry);
  connection.run("UPDATE recalls SET late_on = ? WHERE number = ?", text_at(body, "late_on"), number);
}

/// Every move names the state it leads to.
void enter_state(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string state = text_at(body, "state");
  const bool ended = state == "closed" || state == "answered" || state == "handed over";
  connection.run("UPDATE recalls SET state = ?, open = ?, entry = ? WHERE number = ?", state, ended ? 0 : 1,
                 entry, recall_number(text_at(body, "recall")));
}

}  // namespace

void derive_recall(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  if (kind == Kind::recall_opened) return open(connection, entry, body);
  if (kind == Kind::recall_redated) redate(connection, entry, body);
  if (kind == Kind::recall_not_ready) pause(connection, entry, body);
  enter_state(connection, entry, body);
}

}  // namespace ledger
