#include "advising/answer.h"

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

/// A site check after 2 to 6 months counted from `first`, then a colonoscopy a year after `second`, then
/// three years later another one; whatever is found.
ledger::Protocol linked(const std::string& first, const std::string& second) {
  const auto step = [](const std::string& months, const std::string& from) {
    return "{action: \"surveillance colonoscopy\", from: duration(\"" + months + "\"), to: duration(\"" +
           months + "\"), counted from: \"" + from + "\", rule: \"T-03\", because: \"the plan says so\"}";
  };
  std::string feel = small_answer("site check", "P2M", "P6M", "T-02");
  const auto put = [&](const std::string& old, const std::string& text) {
    feel.replace(feel.find(old), old.size(), text);
  };
  put("counted from: null", "counted from: \"" + first + "\"");
  put("counted from date: null", "counted from date: date(\"2026-03-01\")");
  put("then: []", "then: [" + step("P12M", second) + ", " + step("P3Y", "examination") + "]");
  return {small_ruleset("test-plan", feel)};
}

struct LinkedPlan : TemporaryLedger {
  explicit LinkedPlan(const std::string& first = "removal", const std::string& second = "examination") {
    protocol = linked(first, second);
    record(a_record("H1", "E1", "2026-03-10", {}));
    value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0));
  }
  std::vector<ledger::RecallLine> open() {
    return value_of(ledger::due(ledger, {day("2000-01-01"), day("2100-01-01")}, clock.today(), {}));
  }
};

}  // namespace

TEST_CASE("the next step of a signed plan opens when an examination answers the last", "[recall]") {
  LinkedPlan unit;
  REQUIRE(unit.open().size() == 1);
  CHECK(unit.open().front().action == "site check");
  const auto receipt = unit.record(a_record("H1", "E2", "2026-06-20", {}));
  REQUIRE(receipt.notes.size() >= 2);
  CHECK(receipt.notes[1].find("next step of the plan that Dr Rao signed, due 2027-06-20") !=
        std::string::npos);
  REQUIRE(unit.open().size() == 1);
  const auto next = unit.open().front();
  CHECK(next.action == "surveillance colonoscopy");
  CHECK(engine::text_of(next.due) == "2027-06-20");
  CHECK(next.examination.exam == "E2");
  CHECK(next.clinician == "Dr Rao");
  unit.record(a_record("H1", "E3", "2027-06-25", {}));
  CHECK(engine::text_of(unit.open().front().due) == "2030-06-25");
  unit.record(a_record("H1", "E4", "2030-07-01", {}));
  CHECK(unit.open().empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a step that counts from the first event keeps counting from it", "[recall]") {
  LinkedPlan unit("resection", "resection");
  unit.record(a_record("H1", "E2", "2026-06-20", {}));
  CHECK(engine::text_of(unit.open().front().due) == "2027-03-01");
}

TEST_CASE("the entry of a next step names the signature and the recall before", "[recall]") {
  LinkedPlan unit;
  unit.record(a_record("H1", "E2", "2026-06-20", {}));
  json opened, before;
  std::uint64_t signature = 0;
  for (const auto& entry : unit.entries()) {
    if (entry.kind == "advice signed") signature = entry.sequence;
    if (entry.kind != "recall opened") continue;
    before = std::move(opened);
    opened = json::parse(entry.body);
  }
  CHECK(opened["signed"] == signature);
  CHECK(opened["follows"] == before["recall"]);
  CHECK(opened["then"].size() == 1);
}

TEST_CASE("signing the answer for the new examination replaces the rest of the plan", "[recall]") {
  LinkedPlan unit;
  unit.record(a_record("H1", "E2", "2026-06-20", {}));
  const std::string recall = unit.open().front().recall;
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Other", 0));
  REQUIRE(unit.open().size() == 1);
  CHECK(unit.open().front().recall == recall);
  CHECK(unit.open().front().action == "site check");
  CHECK(unit.open().front().clinician == "Dr Other");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("advice that is superseded puts the next step under review too", "[recall]") {
  LinkedPlan unit;
  unit.record(a_record("H1", "E2", "2026-06-20", {}));
  CHECK_FALSE(unit.open().front().under_review);
  unit.record(a_record("H1", "E1", "2026-03-11", {}));
  CHECK(unit.open().front().under_review);
}

TEST_CASE("an examination for symptoms, elsewhere, answers the recall early", "[recall]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  json record = a_record("H1", "E2", "2027-01-10", {});
  record["exam"]["indication"] = "symptoms";
  record["exam"]["place"] = "Elsewhere Unit";
  const auto receipt = unit.record(record);
  CHECK(receipt.notes.front().find(" early: due 2029-03-10") != std::string::npos);
  CHECK(value_of(ledger::unplanned(unit.ledger, day("2027-01-11"), {})).size() == 1);
}
