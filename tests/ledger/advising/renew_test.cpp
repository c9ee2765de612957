#include <catch2/catch.hpp>

#include "ledger/audit.h"
#include "ledger/lists.h"
#include "ledger/recalls.h"
#include "ledger/revet.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;

namespace {

const engine::Date today{2026, 3, 20};

ledger::Protocol yearly() {
  return {small_ruleset("test-new", small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-01"))};
}

void fill(TemporaryLedger& unit) {
  for (const char* exam : {"E1", "E2"}) {
    unit.record(a_record(std::string("H") + exam, exam, "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    value_of(ledger::sign(unit.ledger, unit.author, exam, "Dr Rao", 0));
  }
}

ledger::RecallLine recall_of(const TemporaryLedger& unit, const std::string& exam) {
  for (const auto& line :
       value_of(ledger::due(unit.ledger, {engine::Date{2000, 1, 1}, engine::Date{2100, 1, 1}}, today, {}))) {
    if (line.examination.exam == exam) return line;
  }
  FAIL("no recall of " + exam);
  return {};
}

}  // namespace

TEST_CASE("who moves under new rulesets is advised anew, and signed from a batch", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  const auto protocol = yearly();
  const auto renewed = value_of(ledger::renew_advice(unit.ledger, unit.author, protocol, {"E1"}));
  REQUIRE(renewed.size() == 1);
  CHECK(renewed[0].advice != 0);
  CHECK(renewed[0].state == "settled");
  CHECK(renewed[0].action == "surveillance colonoscopy");
  CHECK(renewed[0].outcome == "signed");

  // The recall stands, under review, until it is signed; the other is left alone.
  CHECK(engine::text_of(recall_of(unit, "E1").due) == "2029-03-10");
  CHECK(recall_of(unit, "E1").under_review);
  CHECK_FALSE(recall_of(unit, "E2").under_review);
  const auto waiting = value_of(ledger::to_sign(unit.ledger, today, {}));
  REQUIRE(waiting.size() == 1);
  CHECK(waiting[0].examination.exam == "E1");
  CHECK(waiting[0].advice == renewed[0].advice);

  value_of(ledger::sign_batch(unit.ledger, unit.author, "Dr Rao", {{"E1", renewed[0].advice}}));
  CHECK(engine::text_of(recall_of(unit, "E1").due) == "2027-03-10");
  CHECK(recall_of(unit, "E1").ruleset == "test-new");
  CHECK_FALSE(recall_of(unit, "E1").under_review);
  CHECK(value_of(ledger::replay(unit.ledger)).faults.empty());
}

TEST_CASE("an answer that is the same stands, with its signature", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  const auto before = unit.entries().size();
  unit.clock.set("2026-05-20");
  const auto same = value_of(ledger::renew_advice(unit.ledger, unit.author, unit.protocol, {"E1", "E2"}));
  REQUIRE(same.size() == 2);
  CHECK(same[0].advice == 0);
  CHECK(same[1].advice == 0);
  CHECK(unit.entries().size() == before);

  const auto protocol = yearly();
  value_of(ledger::renew_advice(unit.ledger, unit.author, protocol, {"E1"}));
  const auto after = unit.entries().size();
  CHECK(value_of(ledger::renew_advice(unit.ledger, unit.author, protocol, {"E1"})).at(0).advice == 0);
  CHECK(unit.entries().size() == after);
}

TEST_CASE("an examination that is not there is named, and the others are advised anew", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  const auto renewed = value_of(ledger::renew_advice(unit.ledger, unit.author, yearly(), {"E9", "E2"}));
  REQUIRE(renewed.size() == 2);
  CHECK(renewed[0].errors.at(0).code == "unknown_exam");
  CHECK(renewed[1].advice != 0);
  CHECK(ledger::renew_advice(unit.ledger, unit.author, {}, {"E2"}).errors().front().code == "no_ruleset");
}
