#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using engine::Action;
using nlohmann::json;

namespace {

std::string code_of(const engine::Result<ledger::Signed>& result) {
  return result ? "" : result.errors().front().code;
}

json with_adenoma(const std::string& exam, const std::string& date) {
  return a_record("H1", exam, date, {a_lesion("L1", tubular_adenoma())});
}

ledger::Decision decision(Action action, const char* from, const char* reason) {
  ledger::Decision decision{action, std::nullopt, reason};
  if (*from != '\0')
    decision.due = engine::Window{engine::parse_date(from).value(), engine::parse_date(from).value()};
  return decision;
}

}  // namespace

TEST_CASE("a signed next step opens its recall", "[sign]") {
  TemporaryLedger unit;
  const auto receipt = unit.record(with_adenoma("E1", "2026-03-10"));
  const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", receipt.advice));
  CHECK(done.person == receipt.person);
  const auto due = value_of(ledger::due(unit.ledger, {}, {2029, 3, 10}, {}));
  REQUIRE(due.size() == 1);
  CHECK(due[0].recall == done.recall);
  CHECK(due[0].action == "surveillance colonoscopy");
  CHECK(due[0].ruleset == "test-a");
  CHECK(due[0].rule == "T-03");
  CHECK(due[0].clinician == "Dr Rao");
  CHECK(due[0].person.name == "Example, Ada");
  CHECK(due[0].examination.exam == "E1");
  CHECK(due[0].examination.place == "Example Unit");
  CHECK(engine::text_of(due[0].late_on) == "2029-04-21");
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).empty());
}

TEST_CASE("a signed stop gives the examination its outcome and no recall", "[sign]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  CHECK(value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall.empty());
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).empty());
  CHECK(value_of(ledger::sweep(unit.ledger, {2026, 3, 20})).open == 0);
}

TEST_CASE("what cannot be signed is not", "[sign]") {
  TemporaryLedger unit;
  const auto first = unit.record(with_adenoma("E1", "2026-03-10"));
  unit.record(a_record("H2", "E2", "2026-03-10", {a_lesion("L1", nullptr)}));
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E9", "Dr Rao", 0)) == "unknown_exam");
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E1", "", 0)) == "clinician_missing");
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 1)) == "advice_replaced");
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0)) == "advice_not_settled");
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", first.advice)).empty());
  CHECK(code_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", first.advice)) == "already_signed");
}

TEST_CASE("a decision needs what it cannot do without", "[sign]") {
  struct Row {
    const char* because;
    ledger::Decision decision;
    const char* code;
  };
  auto backwards = decision(Action::surveillance_colonoscopy, "2027-01-01", "frail");
  backwards.due->to = {2026, 12, 31};
  const auto row = GENERATE_COPY(values<Row>({
      {"a reason", decision(Action::no_surveillance, "", ""), "reason_missing"},
      {"a date for a colonoscopy", decision(Action::surveillance_colonoscopy, "", "frail"), "date_missing"},
      {"no date for a stop", decision(Action::no_surveillance, "2027-01-01", "frail"), "date_not_wanted"},
      {"a window that runs forwards", backwards, "bad_window"},
      {"something that decides", decision(Action::individualise, "", "frail"), "not_a_decision"},
      {"all of it", decision(Action::surveillance_colonoscopy, "2027-01-01", "frail"), ""},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  unit.record(with_adenoma("E1", "2026-03-10"));
  CHECK(code_of(ledger::override_advice(unit.ledger, unit.author, "E1", "Dr Rao", row.decision, 0)) ==
        row.code);
}

TEST_CASE("an override keeps the computed answer beside the decision", "[sign]") {
  TemporaryLedger unit;
  unit.record(with_adenoma("E1", "2026-03-10"));
  const auto done = value_of(ledger::override_advice(
      unit.ledger, unit.author, "E1", "Dr Rao",
      decision(Action::surveillance_colonoscopy, "2027-03-10", "strong family history"), 0));
  const json body = json::parse(unit.entries()[done.entry - 1].body);
  CHECK(body["reason"] == "strong family history");
  CHECK(body["computed"]["due"]["from"] == "2029-03-10");
  CHECK(body["due"]["from"] == "2027-03-10");
  const auto due = value_of(ledger::due(unit.ledger, {}, {2027, 3, 10}, {}));
  REQUIRE(due.size() == 1);
  CHECK(due[0].rule.empty());
}

TEST_CASE("an override after a signature moves the recall or closes it", "[sign]") {
  TemporaryLedger unit;
  unit.record(with_adenoma("E1", "2026-03-10"));
  const auto recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  const auto moved = value_of(ledger::override_advice(
      unit.ledger, unit.author, "E1", "Dr Rao", decision(Action::site_check, "2026-09-10", "seen again"), 0));
  CHECK(moved.recall == recall);
  auto due = value_of(ledger::due(unit.ledger, {}, {2026, 9, 10}, {}));
  REQUIRE(due.size() == 1);
  CHECK(due[0].risk == ledger::Risk::site_check);
  const auto closed = value_of(ledger::override_advice(
      unit.ledger, unit.author, "E1", "Dr Rao", decision(Action::no_surveillance, "", "patient's wish"), 0));
  CHECK(closed.recall == recall);
  CHECK(value_of(ledger::sweep(unit.ledger, {2026, 9, 10})).open == 0);
}

TEST_CASE("advice that a later examination has overtaken is signed without a recall", "[sign]") {
  TemporaryLedger unit;
  unit.record(with_adenoma("E1", "2026-03-10"));
  unit.record(with_adenoma("E2", "2026-03-15"));
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).size() == 2);
  const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(done.recall.empty());
  REQUIRE(done.notes.size() == 1);
  CHECK(done.notes[0] == "no recall is opened: examination `E2` of 2026-03-15 came after it");
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).size() == 1);
}

TEST_CASE("with several rulesets each answer is kept and the earliest counts", "[sign]") {
  TemporaryLedger unit;
  unit.protocol.push_back(
      small_ruleset("test-b", small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-01")));
  const auto receipt = unit.record(with_adenoma("E1", "2026-03-10"));
  REQUIRE(receipt.answers.size() == 2);
  CHECK(receipt.chosen == 1);
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const auto due = value_of(ledger::due(unit.ledger, {}, {2027, 3, 10}, {}));
  REQUIRE(due.size() == 1);
  CHECK(due[0].ruleset == "test-b");
  const json body = json::parse(unit.entries()[receipt.advice - 1].body);
  CHECK(body["answers"].size() == 2);
}
