#include "advising/answer.h"

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/particulars.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/linked_protocol.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

struct LinkedPlan : TemporaryLedger {
  explicit LinkedPlan(const std::string& first = "removal", const std::string& second = "examination") {
    protocol = linked_protocol(first, second);
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

TEST_CASE("an examination that answers two plans opens the step that is due first, and no second recall",
          "[recall]") {
  LinkedPlan unit;
  unit.record(a_record("H1", "E2", "2026-06-20", {}));
  const std::string first =
      unit.open().front().recall;  // due 2027-06-20, with a step of three years after it
  ledger::MoveDetails details;
  details.reason = "the site was not seen";
  std::string site_check;
  for (const auto& entry : unit.entries()) {
    if (entry.kind == "recall answered") site_check = json::parse(entry.body)["recall"];
  }
  value_of(ledger::move_recall(unit.ledger, unit.author, site_check, ledger::Move::reopen, details));
  REQUIRE(unit.open().size() == 2);
  unit.clock.set("2026-07-20");
  const auto receipt = unit.record(a_record("H1", "E3", "2026-07-20", {}));
  REQUIRE(unit.open().size() == 1);
  CHECK(engine::text_of(unit.open().front().due) == "2027-07-20");
  CHECK(receipt.notes.back() == "of 2 next steps the one that is due first is open");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a signature that changes nothing leaves the appointment as it is", "[recall]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::string recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  ledger::MoveDetails details;
  details.on = day("2029-03-12");
  value_of(ledger::move_recall(unit.ledger, unit.author, recall, ledger::Move::book, details));
  const auto stands = [&] {
    return value_of(ledger::due(unit.ledger, {day("2000-01-01"), day("2100-01-01")}, unit.clock.today(), {}));
  };
  const auto booked_for = [&] {
    return value_of(ledger::particulars_of(unit.ledger, stands().front())).booked_for;
  };
  json amended = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  SECTION("the same plan") {
    amended["exam"]["place"] = "Another Room";
    unit.record(amended);
    CHECK(stands().front().under_review);
    const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
    CHECK(done.notes == std::vector<std::string>{"recall " + recall + " stays due 2029-03-10"});
    CHECK(stands().front().state == "booked");
    CHECK_FALSE(stands().front().under_review);
    CHECK(booked_for() == "2029-03-12");
  }
  SECTION("another one says that the appointment is not the right one") {
    amended["exam"]["lesions"][0]["size_mm"] = 30;
    amended["exam"]["lesions"][0]["removal"] = "piecemeal";
    unit.record(amended);
    const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
    CHECK(done.notes.back() == "recall " + recall + " was booked: book it again, or cancel the appointment");
    CHECK(stands().front().state == "opened");
    CHECK(booked_for().empty());
  }
  CHECK(faults_of(unit.path).empty());
}
