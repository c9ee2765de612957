#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/people.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

const ledger::PersonDecision decision{"Dr Rao", "same woman, two hospitals"};

/// One woman under two numbers: an adenoma in 2026 under H1, an empty colonoscopy in 2029 under X9.
struct TwoNumbers : TemporaryLedger {
  std::string first, second, recall;
  TwoNumbers() {
    first = record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())})).person;
    recall = value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0)).recall;
    clock.set("2029-03-20");
    second = record(a_record("X9", "E2", "2029-03-15", {})).person;
  }
  ledger::Merged merge() {
    return value_of(ledger::merge_people(ledger, author, protocol, "H1", "X9", decision));
  }
  ledger::Merged unmerge() {
    return value_of(ledger::reverse_merge(ledger, author, protocol, second, decision));
  }
  std::string exams_of(const std::string& person) {
    std::string exams;
    for (const auto& entry : value_of(ledger::history(ledger, person)).entries) {
      if (entry.kind == "examination recorded")
        exams += json::parse(entry.body)["exam"].get<std::string>() + " ";
    }
    return exams;
  }
  std::size_t open() {
    return value_of(ledger::due(ledger, {day("2000-01-01"), day("2100-01-01")}, clock.today(), {})).size();
  }
};

}  // namespace

TEST_CASE("two numbers of one person are merged, and the other's examination answers the recall", "[merge]") {
  TwoNumbers unit;
  CHECK(unit.open() == 1);
  const auto merged = unit.merge();
  CHECK(merged.survivor == unit.first);
  CHECK(merged.merged == unit.second);
  REQUIRE(merged.notes.size() >= 2);
  CHECK(merged.notes[0].find("answers recall " + unit.recall) != std::string::npos);
  CHECK(merged.notes[1].find("advice was given again for examination `E2`") != std::string::npos);
  CHECK(unit.open() == 0);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("after a merge every number leads to the survivor with both histories", "[merge]") {
  TwoNumbers unit;
  unit.merge();
  for (const std::string& known : {std::string("H1"), std::string("X9"), unit.first, unit.second}) {
    INFO(known);
    CHECK(value_of(ledger::find_person(unit.ledger, known)).person == unit.first);
    CHECK(unit.exams_of(known) == "E1 E2 ");
  }
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).identifiers ==
        "hospital-number H1; hospital-number X9");
}

TEST_CASE("what comes later under either number is the survivor's", "[merge]") {
  TwoNumbers unit;
  unit.merge();
  CHECK(unit.record(a_record("X9", "E3", "2029-03-18", {})).person == unit.first);
  CHECK(unit.record(a_record("H1", "E4", "2029-03-19", {})).person == unit.first);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a merge that was wrong is reversed, with everything that came of it", "[merge]") {
  TwoNumbers unit;
  unit.merge();
  unit.record(a_record("X9", "E3", "2029-03-18", {}));
  const auto reversed = unit.unmerge();
  CHECK(reversed.notes.front() == "recall " + unit.recall + " is open again");
  CHECK(unit.open() == 1);
  CHECK(unit.exams_of("H1") == "E1 ");
  CHECK(unit.exams_of("X9") == "E2 E3 ");
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).person == unit.second);
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).identifiers == "hospital-number H1");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("advice of a merged person sees the other number's examinations, and not after the reversal",
          "[merge]") {
  TwoNumbers unit;
  const auto previous = [&] {
    std::size_t count = 99;
    for (const auto& entry : unit.entries()) {
      const json body = json::parse(entry.body);
      if (entry.kind == "advice given" && body["exam"] == "E2")
        count = body["record"].value("previous", json::array()).size();
    }
    return count;
  };
  CHECK(previous() == 0);
  unit.merge();
  CHECK(previous() == 1);
  unit.unmerge();
  CHECK(previous() == 0);
}

TEST_CASE("a death of one number is the person's, and goes with the number", "[merge]") {
  TwoNumbers unit;
  value_of(ledger::report_death(unit.ledger, unit.author, "X9", day("2029-03-16")));
  unit.merge();
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).status == "died 2029-03-16");
  unit.unmerge();
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).status.empty());
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).status == "died 2029-03-16");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("merges in a row are reversed from the last", "[merge]") {
  TwoNumbers unit;
  unit.merge();
  const std::string third = unit.record(a_record("Y1", "E5", "2029-03-01", {})).person;
  value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "Y1", "H1", decision));
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).person == third);
  CHECK(code_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, unit.second, decision)) ==
        "merged_further");
  value_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, unit.first, decision));
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).person == unit.first);
  CHECK(unit.exams_of("Y1") == "E5 ");
  unit.unmerge();
  CHECK(unit.exams_of("X9") == "E2 ");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a merge needs two people, a clinician and a reason", "[merge]") {
  TwoNumbers unit;
  const auto code = [&](const char* a, const char* b, const ledger::PersonDecision& given) {
    return code_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, a, b, given));
  };
  CHECK(code("H1", "H1", decision) == "same_person");
  CHECK(code("H1", "Z0", decision) == "unknown_person");
  CHECK(code("H1", "X9", {"", "why"}) == "clinician_missing");
  CHECK(code("H1", "X9", {"Dr Rao", ""}) == "reason_missing");
  CHECK(code_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, unit.second, decision)) ==
        "not_merged");
}

TEST_CASE("duplicates are proposed until they are merged or told apart, and never joined", "[merge]") {
  TwoNumbers unit;
  auto found = value_of(ledger::duplicates(unit.ledger));
  REQUIRE(found.size() == 1);
  CHECK(found.front().first.person == unit.first);
  CHECK(found.front().second.person == unit.second);
  CHECK(found.front().why == "same birth date, same name");
  SECTION("merged") {
    unit.merge();
    CHECK(value_of(ledger::duplicates(unit.ledger)).empty());
    unit.unmerge();
    CHECK(value_of(ledger::duplicates(unit.ledger)).size() == 1);
  }
  SECTION("told apart") {
    value_of(ledger::tell_apart(unit.ledger, unit.author, "X9", "H1", decision));
    CHECK(value_of(ledger::duplicates(unit.ledger)).empty());
  }
  CHECK(faults_of(unit.path).empty());
}
