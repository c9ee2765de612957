#include <catch2/catch.hpp>

#include "ledger/advising.h"
#include "ledger/lists.h"
#include "ledger/protocol.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;

namespace {

/// An adenoma, answered by the small protocol; then the unit asks for a colonoscopy after a year, whatever
/// was found.
struct OtherRules : TemporaryLedger {
  ledger::Protocol other = {
      small_ruleset("test-b", small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-01"))};
  OtherRules() {
    adopt(protocol, "2026-01-01");
    record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    record(a_record("H2", "E2", "2026-03-11", {a_lesion("L1", nullptr)}));
  }
  void adopt(const ledger::Protocol& rulesets, const char* from) {
    ledger::NewProtocol protocol_of_unit;
    protocol_of_unit.from = day(from);
    protocol_of_unit.clinician = "Dr Rao";
    protocol_of_unit.reason = "as agreed";
    value_of(ledger::adopt_protocol(ledger, author, rulesets, protocol_of_unit));
  }
  ledger::AdvisedAgain again(const std::string& exam) {
    return value_of(ledger::advise_again(ledger, author, other, exam));
  }
};

}  // namespace

TEST_CASE(
    "what was signed under other rules is answered again, and its recall stands under review until then",
    "[again]") {
  OtherRules unit;
  const std::string recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  unit.adopt(unit.other, "2026-03-15");
  const auto advised = unit.again("E1");
  CHECK(advised.answers.at(advised.chosen).ruleset == "test-b");
  CHECK(advised.notes.front() == "the advice was signed; the new one must be signed");
  const auto open = [&] {
    return value_of(ledger::due(unit.ledger, {day("2000-01-01"), day("2100-01-01")}, unit.clock.today(), {}))
        .front();
  };
  CHECK(open().under_review);
  CHECK(engine::text_of(open().due) == "2029-03-10");
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", advised.advice));
  CHECK(open().recall == recall);
  CHECK_FALSE(open().under_review);
  CHECK(engine::text_of(open().due) == "2027-03-10");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("asking again the rules that answered changes nothing", "[again]") {
  OtherRules unit;
  unit.again("E1");
  const auto before = value_of(unit.ledger.checkpoint());
  CHECK(unit.again("E1").advice == 0);
  CHECK(value_of(unit.ledger.checkpoint()) == before);
  CHECK(code_of(ledger::advise_again(unit.ledger, unit.author, unit.other, "E9")) == "unknown_exam");
  CHECK(code_of(ledger::advise_again(unit.ledger, unit.author, {}, "E1")) == "no_ruleset");
}

TEST_CASE("asking again after people alone see a difference takes no signature back", "[again]") {
  OtherRules unit;
  unit.again("E1");
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  auto later = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  later["patient"]["contact"] = {{"telephone", "01632 960018"}};
  unit.protocol = unit.other;
  REQUIRE(unit.record(later).received == ledger::Received::amended);
  CHECK(unit.again("E1").advice == 0);
  CHECK(value_of(ledger::unplanned(unit.ledger, unit.clock.today(), {})).empty());
}

TEST_CASE("examinations that other rules answered are named until the new ones have answered", "[again]") {
  OtherRules unit;
  const auto outdated = [&] { return value_of(ledger::answered_by_other_rulesets(unit.ledger, unit.other)); };
  CHECK(outdated() == std::vector<std::string>{"E1", "E2"});
  unit.again("E1");
  CHECK(outdated() == std::vector<std::string>{"E2"});
  // What is still awaited is answered by the rules of the day on which the result comes.
  unit.protocol = unit.other;
  unit.result(a_result("E2", "L1", tubular_adenoma()));
  CHECK(outdated().empty());
}

TEST_CASE("a signature under rules that are not in force any more says so", "[again]") {
  OtherRules unit;
  unit.adopt(unit.other, "2026-03-15");
  const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(done.notes.back() ==
        "answered by other rulesets than those in force since 2026-03-15: `advice again` asks those");
}
