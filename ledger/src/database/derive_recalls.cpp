#include "database/connection.h"
#include "database/derive.h"
#include "database/derive_letters.h"
#include "database/lane.h"
#include "engine/canonical.h"

namespace ledger {

namespace {

using nlohmann::json;

std::string json_text(const json& body, const char* key, const json& otherwise) {
  return engine::canonical_json(body.value(key, otherwise));
}

std::optional<std::uint64_t> recall_before(const json& body) {
  const std::string follows = text_at(body, "follows");
  if (follows.empty()) return std::nullopt;
  return static_cast<std::uint64_t>(recall_number(follows));
}

void derive_lane(Connection& connection, std::int64_t number) {
  connection.run("UPDATE recalls SET lane = " LEDGER_LANE " WHERE number = ?", number);
}

/// `recall opened` holds the whole plan.
void open(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run(
      "INSERT INTO recalls (number, person, exam, advice, action, ruleset, rule, clinician, risk, state,"
      " open, due, due_to, late_on, interval_days, under_review, signed, later_steps, counted_from, follows,"
      " answered_by, attempts, last_attempt, invited, means, owner, vetted_by, vetted_on, vetted_result, "
      "age_at_due, lane,"
      " entry)"
      " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 'opened', 1, ?, ?, ?, ?, 0, ?, ?, ?, ?, '', 0, '', NULL, '', '', "
      "'', '',"
      " '', NULL, 0, ?)",
      recall_number(text_at(body, "recall")), text_at(body, "person"), text_at(body, "exam"),
      body.at("advice").get<std::uint64_t>(), text_at(body, "action"), text_at(body, "ruleset"),
      text_at(body, "rule"), text_at(body, "clinician"), body.at("risk").get<std::int64_t>(),
      text_at(body, "due"), text_at(body, "due_to"), text_at(body, "late_on"),
      body.at("interval_days").get<std::int64_t>(), number_at(body, "signed"),
      json_text(body, "then", json::array()), json_text(body, "counted_from", json()), recall_before(body),
      entry);
  derive_lane(connection, recall_number(text_at(body, "recall")));
  derive_ages(connection, text_at(body, "person"));
}

void redate(Connection& connection, std::uint64_t entry, const json& body) {
  const std::int64_t number = recall_number(text_at(body, "recall"));
  connection.run(
      "UPDATE recalls SET due = ?2, due_to = ?3, late_on = ?4, interval_days = ?5, entry = ?6 WHERE number = "
      "?1",
      number, text_at(body, "due"), text_at(body, "due_to"), text_at(body, "late_on"),
      body.at("interval_days").get<std::int64_t>(), entry);
  derive_ages(connection, text_at(body, "person"));
  if (!body.contains("advice")) return;
  // A new signature replaces the plan and ends the review; a change of date alone does not.
  connection.run(
      "UPDATE recalls SET advice = ?2, action = ?3, ruleset = ?4, rule = ?5, clinician = ?6, risk = ?7,"
      " signed = ?8, later_steps = ?9, counted_from = ?10, under_review = 0 WHERE number = ?1",
      number, body.at("advice").get<std::uint64_t>(), text_at(body, "action"), text_at(body, "ruleset"),
      text_at(body, "rule"), text_at(body, "clinician"), body.at("risk").get<std::int64_t>(),
      number_at(body, "signed"), json_text(body, "then", json::array()),
      json_text(body, "counted_from", json()));
}

void pause(Connection& connection, std::uint64_t entry, const json& body) {
  const std::int64_t number = recall_number(text_at(body, "recall"));
  connection.run("INSERT INTO not_ready (recall, first, last, entry) VALUES (?, ?, ?, ?)", number,
                 text_at(body, "from"), text_at(body, "to"), entry);
  connection.run("UPDATE recalls SET late_on = ? WHERE number = ?", text_at(body, "late_on"), number);
}

void vet(Connection& connection, const json& body) {
  connection.run("UPDATE recalls SET vetted_by = ?, vetted_on = ?, vetted_result = ? WHERE number = ?",
                 text_at(body, "clinician"), text_at(body, "on"), body.value("result", std::string("invite")),
                 recall_number(text_at(body, "recall")));
}

void invite(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run(
      "UPDATE recalls SET attempts = ?, last_attempt = ?, invited = ?, means = ?, owner = ? WHERE number = ?",
      body.at("attempt").get<std::int64_t>(), text_at(body, "on"), entry, text_at(body, "means"),
      text_at(body, "owner"), recall_number(text_at(body, "recall")));
}

/// What was decided and tried before a recall was opened anew, or for a time that is over, does not count on.
void begin_again(Connection& connection, std::int64_t number) {
  connection.run(
      "UPDATE recalls SET attempts = 0, last_attempt = '', invited = NULL, means = '', owner = '', vetted_by "
      "= '',"
      " vetted_on = '', vetted_result = '', answered_by = '' WHERE number = ?",
      number);
}

/// Every move names the state it leads to.
void enter_state(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  const std::string state = text_at(body, "state");
  const std::int64_t number = recall_number(text_at(body, "recall"));
  const bool ended = state == "closed" || state == "answered" || state == "handed over";
  connection.run("UPDATE recalls SET state = ?, open = ?, entry = ? WHERE number = ?", state, ended ? 0 : 1,
                 entry, number);
  // A booking that is cancelled does not begin the contacts anew.
  if (state == "opened" && kind != Kind::recall_cancelled) begin_again(connection, number);
  if (state == "not ready")
    connection.run("UPDATE recalls SET attempts = 0, invited = NULL, means = '', owner = '' WHERE number = ?",
                   number);
  if (state == "answered")
    connection.run("UPDATE recalls SET answered_by = ? WHERE number = ?", text_at(body, "exam"), number);
}

}  // namespace

// Completed years, so someone born on 29 February is a year older on 1 March.
void derive_ages(Connection& connection, const std::string& person) {
  connection.run(
      "UPDATE recalls SET age_at_due = (SELECT CAST(substr(recalls.due, 1, 4) AS INTEGER)"
      " - CAST(substr(birth_date, 1, 4) AS INTEGER) - (substr(recalls.due, 6) < substr(birth_date, 6))"
      " FROM people WHERE person = recalls.person AND birth_date <> '') WHERE person = ?",
      person);
}

void derive_recall(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  if (kind == Kind::recall_opened) return open(connection, entry, body);
  if (kind == Kind::recall_redated) redate(connection, entry, body);
  if (kind == Kind::recall_not_ready) pause(connection, entry, body);
  if (kind == Kind::recall_vetted) vet(connection, body);
  if (kind == Kind::recall_invited) invite(connection, entry, body);
  if (kind == Kind::recall_redated || kind == Kind::recall_not_ready)
    derive_lane(connection, recall_number(text_at(body, "recall")));
  enter_state(connection, kind, entry, body);
  derive_letters_of_recall(connection, kind, entry, body);
}

}  // namespace ledger
