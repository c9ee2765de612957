#include "ledger/recalls.h"

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/patients.h"
#include "ledger/people.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using ledger::Move;
using ledger::MoveDetails;
using nlohmann::json;

namespace {

/// A unit with one open recall, due 2029-03-10.
struct OneRecall : TemporaryLedger {
  std::string recall;
  OneRecall() {
    record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    recall = value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0)).recall;
    clock.set("2029-03-01");
  }
  ledger::RecallState move(Move move, const MoveDetails& details) {
    return value_of(ledger::move_recall(ledger, author, recall, move, details));
  }
  engine::Errors refused(Move move, const MoveDetails& details) {
    const auto result = ledger::move_recall(ledger, author, recall, move, details);
    REQUIRE_FALSE(result);
    return result.errors();
  }
  ledger::RecallLine line() {
    const auto lines =
        value_of(ledger::due(ledger, {day("2000-01-01"), day("2100-01-01")}, clock.today(), {}));
    REQUIRE(lines.size() == 1);
    return lines.front();
  }
  json last() { return json::parse(entries().back().body); }
};

MoveDetails details() {
  MoveDetails all;
  all.clinician = "Dr Rao";
  all.reason = "a reason";
  all.means = "letter";
  all.from = day("2029-06-01");
  all.to = day("2029-06-30");
  all.on = day("2029-03-02");
  return all;
}

}  // namespace

TEST_CASE("a recall is vetted, invited, booked, missed, invited again and attended", "[recall]") {
  OneRecall unit;
  unit.move(Move::vet, details());
  CHECK(unit.line().state == "vetted");
  unit.move(Move::invite, details());
  CHECK(unit.last()["attempt"] == 1);
  CHECK(unit.last()["means"] == "letter");
  unit.move(Move::book, details());
  CHECK(unit.last()["on"] == "2029-03-02");
  unit.move(Move::miss, {});
  CHECK(unit.last()["on"] == "2029-03-01");
  unit.move(Move::invite, details());
  CHECK(unit.last()["attempt"] == 2);
  unit.move(Move::book, details());
  CHECK(unit.move(Move::attend, {}) == ledger::RecallState::attended);
  CHECK(unit.line().state == "attended");
}

TEST_CASE("a move that is not allowed names those that are", "[recall]") {
  OneRecall unit;
  unit.move(Move::book, details());
  const auto before = unit.entries().size();
  const auto errors = unit.refused(Move::vet, details());
  CHECK(errors.front().code == "move_not_allowed");
  CHECK(errors.front().message == "recall " + unit.recall + " is `booked`: `vet` is not allowed");
  CHECK(errors.front().help == "allowed are `redate`, `defer`, `book`, `cancel`, `miss`, `attend`, `close`");
  CHECK(unit.refused(Move::answer, details()).front().code == "move_not_allowed");
  CHECK(unit.entries().size() == before);
}

TEST_CASE("a move that lacks something says all that it lacks", "[recall]") {
  struct Row {
    Move move;
    const char* missing;
  };
  const auto row = GENERATE(values<Row>({
      {Move::vet, "`vet` needs the clinician who decides; "},
      {Move::redate,
       "`redate` needs the clinician who decides; `redate` needs the reason; `redate` needs the first day; "},
      {Move::defer, "`defer` needs the reason; `defer` needs the first day; `defer` needs the last day; "},
      {Move::book, "`book` needs the day of the appointment; "},
      {Move::hand_over, "`hand over` needs the reason; "},
      {Move::close, "`close` needs the clinician who decides; `close` needs the reason; "},
  }));
  OneRecall unit;
  std::string missing;
  for (const auto& error : unit.refused(row.move, {})) {
    CHECK(error.code == "detail_missing");
    missing += error.message + "; ";
  }
  CHECK(missing == row.missing);
}

TEST_CASE("an unknown recall and a window that runs backwards are refused", "[recall]") {
  OneRecall unit;
  for (const char* recall : {"R1", "R999", "recall", "", "R", "12"}) {
    const auto result = ledger::move_recall(unit.ledger, unit.author, recall, Move::vet, details());
    REQUIRE_FALSE(result);
    CHECK(result.errors().front().code == "unknown_recall");
  }
  MoveDetails backwards = details();
  std::swap(backwards.from, backwards.to);
  CHECK(unit.refused(Move::defer, backwards).front().code == "bad_window");
}

TEST_CASE("a redated recall has another due and late date, and is vetted anew", "[recall]") {
  OneRecall unit;
  unit.move(Move::vet, details());
  unit.move(Move::redate, details());
  const auto line = unit.line();
  CHECK(engine::text_of(line.due) == "2029-06-01");
  CHECK(engine::text_of(line.due_to) == "2029-06-30");
  CHECK(engine::text_of(line.late_on) == "2029-07-13");
  CHECK(line.state == "opened");
  CHECK(line.rule == "T-03");
}

TEST_CASE("days not ready do not count", "[recall]") {
  OneRecall unit;
  MoveDetails away = details();
  away.from = day("2029-03-15");
  away.to = day("2029-03-24");
  unit.move(Move::defer, away);
  CHECK(engine::text_of(unit.line().late_on) == "2029-05-01");
  CHECK(unit.line().state == "not ready");
  unit.move(Move::defer, away);
  CHECK(engine::text_of(unit.line().late_on) == "2029-05-01");
}

TEST_CASE("a closed recall that is reopened keeps its old clock", "[recall]") {
  OneRecall unit;
  unit.move(Move::close, details());
  CHECK(value_of(ledger::sweep(unit.ledger, day("2029-03-10"))).open == 0);
  CHECK(unit.last()["clinician"] == "Dr Rao");
  CHECK(unit.last()["on"] == "2029-03-02");
  unit.move(Move::reopen, details());
  CHECK(engine::text_of(unit.line().due) == "2029-03-10");
}

TEST_CASE("a recall that is handed over is counted apart, and can be taken back", "[recall]") {
  OneRecall unit;
  unit.move(Move::hand_over, details());
  auto census = value_of(ledger::sweep(unit.ledger, day("2029-03-10")));
  CHECK(census.open == 0);
  CHECK(census.handed_over == 1);
  unit.move(Move::take_back, {});
  census = value_of(ledger::sweep(unit.ledger, day("2029-03-10")));
  CHECK(census.open == 1);
  CHECK(census.handed_over == 0);
}

TEST_CASE("a death closes nothing and puts the recall on the list to be closed", "[recall]") {
  OneRecall unit;
  CHECK(value_of(ledger::to_close(unit.ledger, day("2029-03-10"), {})).empty());
  value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2029-02-01")));
  const auto lines = value_of(ledger::to_close(unit.ledger, day("2029-03-10"), {}));
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].person.status == "died 2029-02-01");
  CHECK(unit.line().state == "opened");
  unit.move(Move::close, details());
  CHECK(value_of(ledger::to_close(unit.ledger, day("2029-03-10"), {})).empty());
}

TEST_CASE("a move away puts the recall on the same list", "[recall]") {
  OneRecall unit;
  value_of(ledger::report_move_away(unit.ledger, unit.author, "H1", day("2029-02-01")));
  CHECK(value_of(ledger::to_close(unit.ledger, day("2029-03-10"), {})).front().person.status ==
        "moved away 2029-02-01");
  const auto unknown = ledger::report_move_away(unit.ledger, unit.author, "H9", day("2029-02-01"));
  REQUIRE_FALSE(unknown);
  CHECK(unknown.errors().front().code == "unknown_person");
}

TEST_CASE("the contact ladder is climbed once, and ends with an owner", "[recall]") {
  OneRecall unit;
  MoveDetails attempt;
  attempt.on = day("2029-03-02");
  attempt.owner = "Sister Example";
  for (const char* means : {"letter", "letter", "telephone", "family doctor"}) {
    CHECK(unit.move(Move::invite, attempt) == ledger::RecallState::invited);
    CHECK(unit.last()["means"] == means);
  }
  CHECK(unit.last()["attempt"] == 4);
  attempt.owner.clear();
  CHECK(unit.refused(Move::invite, attempt).front().code == "detail_missing");
  attempt.owner = "Sister Example";
  CHECK(unit.move(Move::invite, attempt) == ledger::RecallState::no_reply);
  CHECK(unit.last()["means"] == "final");
  CHECK(unit.last()["last"] == true);
  CHECK(unit.last()["owner"] == "Sister Example");
  const auto lines = value_of(ledger::no_reply(unit.ledger, unit.clock.today(), {}));
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().recall == unit.recall);
  const auto errors = unit.refused(Move::invite, attempt);
  CHECK(errors.front().code == "move_not_allowed");
  CHECK(errors.front().help == "allowed are `redate`, `defer`, `book`, `hand over`, `close`");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("the ladder goes on after a missed appointment, and begins anew with another date", "[recall]") {
  OneRecall unit;
  for (int i = 0; i < 4; ++i) unit.move(Move::invite, {});
  unit.move(Move::book, details());
  unit.move(Move::miss, {});
  MoveDetails last;
  last.owner = "Sister Example";
  CHECK(unit.move(Move::invite, last) == ledger::RecallState::no_reply);
  unit.move(Move::redate, details());
  CHECK(unit.move(Move::invite, {}) == ledger::RecallState::invited);
  CHECK(unit.last()["attempt"] == 1);
}

TEST_CASE("nobody is invited after the last attempt, also when an appointment was missed since", "[recall]") {
  OneRecall unit;
  MoveDetails attempt;
  attempt.owner = "Sister Example";
  for (int i = 0; i < 5; ++i) unit.move(Move::invite, attempt);
  unit.move(Move::book, details());
  unit.move(Move::miss, {});
  CHECK(unit.refused(Move::invite, attempt).front().code == "ladder_used_up");
}

TEST_CASE("an appointment that comes to nothing after the last attempt leaves the recall with its owner",
          "[recall]") {
  OneRecall unit;
  MoveDetails attempt;
  attempt.owner = "Sister Example";
  for (int i = 0; i < 5; ++i) unit.move(Move::invite, attempt);
  const auto listed = [&] { return value_of(ledger::no_reply(unit.ledger, unit.clock.today(), {})).size(); };
  const auto counted = [&] { return value_of(ledger::sweep(unit.ledger, unit.clock.today())).no_reply; };
  CHECK(listed() == 1);
  unit.move(Move::book, details());
  CHECK(listed() == 0);
  const Move what = GENERATE(Move::miss, Move::cancel);
  unit.move(what, details());
  CHECK(listed() == 1);
  CHECK(counted() == 1);
  unit.move(Move::defer, details());
  CHECK(listed() == 0);
  CHECK(counted() == 0);
}

TEST_CASE("the list of those without reply asks for as many attempts as the ladder has", "[recall]") {
  CHECK(ledger::contact_ladder().size() == 5);  // database/no_reply.h
}

TEST_CASE("a booking that nobody vetted is not vetted when it is cancelled", "[recall]") {
  OneRecall unit;
  unit.move(Move::invite, {});
  unit.move(Move::book, details());
  CHECK(unit.move(Move::cancel, details()) == ledger::RecallState::opened);
  CHECK(value_of(ledger::to_vet(unit.ledger, {}, unit.clock.today(), {})).size() == 1);
  unit.move(Move::invite, {});
  CHECK(unit.last()["attempt"] == 2);  // the contacts were not begun anew
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a recall is not opened again beside another one of the same examination", "[recall]") {
  OneRecall unit;
  unit.move(Move::close, details());
  unit.result(a_result("E1", "L1", {{"type", "villous adenoma"}}));
  const auto second = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  const auto errors = unit.refused(Move::reopen, details());
  CHECK(errors.front().code == "another_recall");
  CHECK(errors.front().message == "recall " + second + " is `opened` for examination `E1`: `reopen` of " +
                                      unit.recall + " would ask the person twice");
}

TEST_CASE("a recall is not opened again against what was signed since", "[recall]") {
  OneRecall unit;
  const bool by_signature = GENERATE(true, false);
  if (by_signature) {
    unit.result(a_result("E1", "L1", hyperplastic_polyp()));
    value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  } else {
    value_of(ledger::override_advice(unit.ledger, unit.author, "E1", "Dr Rao",
                                     {engine::Action::no_surveillance, {}, "too frail"}, 0));
  }
  CHECK(unit.refused(Move::reopen, details()).front().code == "plan_replaced");
}

TEST_CASE("histology that is withdrawn after an examination answered the recall is decided with that one",
          "[recall]") {
  OneRecall unit;
  unit.record(a_record("H1", "E2", "2029-02-20", {}));
  value_of(
      ledger::withdraw_histology(unit.ledger, unit.author, unit.protocol, {"E1", {}, "another's slide"}));
  // The recall stays answered; the older examination waits, and opens nothing when it is signed after all.
  CHECK(value_of(ledger::awaiting(unit.ledger, unit.clock.today(), {})).size() == 1);
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  CHECK(value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall.empty());
  CHECK(value_of(ledger::sweep(unit.ledger, unit.clock.today())).open == 0);
  const auto unsigned_ones = value_of(ledger::to_sign(unit.ledger, unit.clock.today(), {}));
  REQUIRE(unsigned_ones.size() == 1);
  CHECK(unsigned_ones.front().examination.exam == "E2");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("the final attempt is not made before its turn", "[recall]") {
  OneRecall unit;
  MoveDetails final_one;
  final_one.means = "final";
  final_one.owner = "Sister Example";
  const auto errors = unit.refused(Move::invite, final_one);
  CHECK(errors.front().code == "ladder_not_climbed");
  CHECK(errors.front().help == "the next is `letter`");
}

TEST_CASE("vetting ends in an invitation, in a clinic or in a stop", "[recall]") {
  struct Row {
    const char* because;
    ledger::Vetting result;
    const char *state, *kinds;
  };
  const auto row = GENERATE(values<Row>({
      {"the person is invited", ledger::Vetting::invite, "vetted", "recall vetted"},
      {"the person is seen first", ledger::Vetting::clinic, "clinic", "recall vetted"},
      {"it ends", ledger::Vetting::stop, "closed", "recall vetted, recall closed"},
  }));
  INFO(row.because);
  OneRecall unit;
  const std::uint64_t before = unit.entries().size();
  MoveDetails vetting = details();
  vetting.result = row.result;
  CHECK(ledger::text_of(unit.move(Move::vet, vetting)) == row.state);
  CHECK(unit.kinds(before + 1) == row.kinds);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a clinic and a stop need a reason", "[recall]") {
  OneRecall unit;
  MoveDetails vetting;
  vetting.clinician = "Dr Rao";
  for (const auto result : {ledger::Vetting::clinic, ledger::Vetting::stop}) {
    vetting.result = result;
    CHECK(unit.refused(Move::vet, vetting).front().message == "`vet` needs the reason");
  }
}
