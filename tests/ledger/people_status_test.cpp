#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/people.h"
#include "ledger/protocol.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;

namespace {

struct OneRecall : TemporaryLedger {
  std::string recall;
  OneRecall() {
    record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    recall = value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0)).recall;
  }
  std::string status() { return value_of(ledger::find_person(ledger, "H1")).status; }
  std::size_t to_close() { return value_of(ledger::to_close(ledger, day("2029-03-10"), {})).size(); }
};

}  // namespace

TEST_CASE("a death that was noted in error is taken back, and the recall is wanted again", "[people]") {
  OneRecall unit;
  value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-18")));
  CHECK(unit.to_close() == 1);
  CHECK(value_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")).empty());
  CHECK(unit.status().empty());
  CHECK(unit.to_close() == 0);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("recalls that were closed for a death that was none are named", "[people]") {
  OneRecall unit;
  value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-18")));
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "died";
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::close, details));
  CHECK(value_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")) ==
        std::vector<std::string>{unit.recall});
}

TEST_CASE("a person who moved away comes back", "[people]") {
  OneRecall unit;
  value_of(ledger::report_move_away(unit.ledger, unit.author, "H1", day("2026-03-18")));
  CHECK(unit.status() == "moved away 2026-03-18");
  value_of(ledger::report_move_back(unit.ledger, unit.author, "H1", "new address in town"));
  CHECK(unit.status().empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("what was not reported is not taken back", "[people]") {
  OneRecall unit;
  CHECK(code_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")) == "not_reported");
  CHECK(code_of(ledger::report_alive(unit.ledger, unit.author, "H1", "")) == "reason_missing");
  CHECK(code_of(ledger::report_alive(unit.ledger, unit.author, "H9", "rang up")) == "unknown_person");
  value_of(ledger::report_move_away(unit.ledger, unit.author, "H1", day("2026-03-18")));
  CHECK(code_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")) == "not_reported");
}

// Born 1961-05-04: 67 completed years on 2029-03-10.
TEST_CASE("the age at the due date follows the date and the birth date", "[people]") {
  OneRecall unit;
  const auto age = [&] { return ask_sql(unit.path, "SELECT age_at_due FROM recalls"); };
  CHECK(age() == "67");
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "later";
  details.from = day("2036-05-04");
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::redate, details));
  CHECK(age() == "75");
  details.from = day("2036-05-03");
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::redate, details));
  CHECK(age() == "74");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("surveillance past the age limit waits for a clinician, until it is vetted", "[people]") {
  OneRecall unit;  // 67 years old at the due date
  CHECK(unit.to_close() == 0);
  ledger::NewProtocol protocol;
  protocol.from = day("2026-03-01");
  protocol.clinician = "Dr Rao";
  protocol.reason = "as agreed";
  protocol.terms.age_limit = 67;
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol));
  CHECK(unit.to_close() == 1);
  CHECK(value_of(ledger::sweep(unit.ledger, day("2029-03-10"))).to_close == 1);
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::vet, details));
  CHECK(unit.to_close() == 0);
}

TEST_CASE("a recall that was closed before the death is not named, whatever was written about it since",
          "[people]") {
  OneRecall unit;
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "declined";
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::close, details));
  value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-18")));
  unit.result(a_result("E1", "L1", hyperplastic_polyp()));  // supersedes the advice that the recall came from
  CHECK(value_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")).empty());
}

TEST_CASE("an examination after the day of death says that the death may be wrong", "[people]") {
  OneRecall unit;
  value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-12")));
  const auto notes = unit.record(a_record("H1", "E2", "2026-03-15", {})).notes;
  CHECK(notes.back() ==
        "the person is noted as died 2026-03-12, before this examination: find out whether that is right");
}
