#include <catch2/catch.hpp>

#include "ledger/letters.h"
#include "ledger/lists.h"
#include "ledger/people.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/linked_protocol.h"
#include "support/records.h"
#include "support/sqlite.h"
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

TEST_CASE("a death that is reported under a number goes with that number, also when it was merged by then",
          "[merge]") {
  TwoNumbers unit;
  unit.merge();
  value_of(ledger::report_death(unit.ledger, unit.author, "hospital-number:X9", day("2029-03-18")));
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).status == "died 2029-03-18");
  unit.unmerge();
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).status.empty());
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).status == "died 2029-03-18");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a death that was reversed after a merge is reversed for every number", "[merge]") {
  TwoNumbers unit;
  value_of(ledger::report_death(unit.ledger, unit.author, "X9", day("2029-03-16")));
  unit.merge();
  value_of(ledger::report_alive(unit.ledger, unit.author, "H1", "rang up"));
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).status.empty());
  unit.unmerge();
  CHECK(value_of(ledger::find_person(unit.ledger, "X9")).status.empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("what is written while merges stand in a row belongs to the number that it is about", "[merge]") {
  TwoNumbers unit;
  unit.merge();
  const std::string third = unit.record(a_record("Y1", "E5", "2029-03-01", {})).person;
  value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "Y1", "H1", decision));
  unit.record(a_record("X9", "E6", "2029-03-18", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "E6", "Dr Rao", 0));
  value_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, unit.first, decision));
  CHECK(unit.exams_of("Y1") == "E5 ");
  CHECK(unit.exams_of("H1") == "E1 E2 E6 ");
  // Its advice knew of the other number's examination: it was given again, and a letter waits for the
  // signature.
  CHECK_FALSE(
      ledger::note_letter(unit.ledger, unit.author, {"E6", "result", "patient", "Back to screening."}));
  value_of(ledger::sign(unit.ledger, unit.author, "E6", "Dr Rao", 0));
  value_of(ledger::note_letter(unit.ledger, unit.author, {"E6", "result", "patient", "Back to screening."}));
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a merge and its reversal stand in the history of both, also when they are merged again",
          "[merge]") {
  TwoNumbers unit;
  const auto merges_of = [&](const std::string& person) {
    std::size_t count = 0;
    for (const auto& entry : value_of(ledger::history(unit.ledger, person)).entries)
      count += entry.kind.starts_with("person merge") ? 1 : 0;
    return count;
  };
  unit.merge();
  unit.unmerge();
  unit.merge();
  unit.unmerge();
  CHECK(merges_of("H1") == 4);
  CHECK(merges_of("X9") == 4);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a recall that a person opened again is not answered by a merge with someone else", "[merge]") {
  TwoNumbers unit;
  unit.clock.set("2029-03-21");
  unit.record(a_record("H1", "sigmoidoscopy", "2029-03-12", {}));
  ledger::MoveDetails details;
  details.reason = "only the left side was seen";
  value_of(ledger::move_recall(unit.ledger, unit.author, unit.recall, ledger::Move::reopen, details));
  const std::string other = unit.record(a_record("Z3", "E0", "2020-01-10", {})).person;
  value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "H1", other, decision));
  CHECK(unit.open() == 1);
  unit.merge();  // an examination that was not known to be hers
  CHECK(unit.open() == 0);
}

TEST_CASE("a next step that was signed while the other's examination stood after it is signed anew",
          "[merge]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::string other = unit.record(a_record("X9", "E2", "2026-03-15", {})).person;
  value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "H1", "X9", decision));
  const auto done = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(done.recall.empty());  // E2 came after it
  value_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, other, decision));
  std::string to_sign;
  for (const auto& line : value_of(ledger::to_sign(unit.ledger, unit.clock.today(), {})))
    to_sign += line.examination.exam + " ";
  CHECK(to_sign == "E1 E2 ");
  CHECK_FALSE(value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall.empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a merge while histology is awaited leaves it awaited, and the result finds the survivor",
          "[merge]") {
  TemporaryLedger unit;
  const std::string person =
      unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)})).person;
  const std::string other = unit.record(a_record("X9", "E2", "2026-03-15", {a_lesion("L1", nullptr)})).person;
  value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "H1", "X9", decision));
  CHECK(value_of(ledger::awaiting(unit.ledger, unit.clock.today(), {})).size() == 2);
  const auto receipt = unit.result(a_result("E2", "L1", tubular_adenoma()));
  CHECK(receipt.person == person);
  CHECK(value_of(ledger::awaiting(unit.ledger, unit.clock.today(), {})).size() == 1);
  value_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, other, decision));
  CHECK(unit.result(a_result("E1", "L1", tubular_adenoma())).person == person);
  CHECK(value_of(ledger::to_sign(unit.ledger, unit.clock.today(), {})).size() == 2);
  CHECK(faults_of(unit.path).empty());
}

namespace {

/// H1 has a site check with two later steps; X9 was examined after it.
struct PlanAndStranger : TemporaryLedger {
  std::string other;
  PlanAndStranger() {
    protocol = linked_protocol("removal", "examination");
    record(a_record("H1", "E1", "2026-03-10", {}));
    value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0));
    clock.set("2026-06-20");
    other = record(a_record("X9", "E2", "2026-06-15", {})).person;
  }
  void merge() { value_of(ledger::merge_people(ledger, author, protocol, "H1", "X9", decision)); }
  void unmerge() { value_of(ledger::reverse_merge(ledger, author, protocol, other, decision)); }
  /// `H1's person: site check after E1; ...`
  std::string open() {
    std::string text;
    const auto lines =
        value_of(ledger::due(ledger, {day("2000-01-01"), day("2100-01-01")}, clock.today(), {}));
    for (const auto& line : lines)
      text += line.person.identifiers + ": " + line.action + " after " + line.examination.exam + "; ";
    return text;
  }
};

}  // namespace

TEST_CASE("a step of a plan that opened by a wrong merge is closed when that is reversed", "[merge]") {
  PlanAndStranger unit;
  CHECK(unit.open() == "hospital-number H1: site check after E1; ");
  unit.merge();
  CHECK(unit.open() == "hospital-number H1; hospital-number X9: surveillance colonoscopy after E2; ");
  SECTION("nothing came in between") {
    unit.unmerge();
    CHECK(unit.open() == "hospital-number H1: site check after E1; ");
  }
  SECTION("the person's own examination came after it") {
    unit.record(a_record("H1", "E3", "2026-06-18", {}));
    unit.unmerge();
    CHECK(unit.open() == "hospital-number H1: surveillance colonoscopy after E3; ");
  }
  SECTION("the other has a plan of their own by then") {
    value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
    unit.unmerge();
    CHECK(unit.open() ==
          "hospital-number X9: site check after E2; hospital-number H1: site check after E1; ");
  }
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("an examination with a plan of its own keeps it when a merge shows that it answers another's",
          "[merge]") {
  PlanAndStranger unit;
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
  unit.merge();
  CHECK(unit.open() == "hospital-number H1; hospital-number X9: site check after E2; ");
  CHECK(value_of(ledger::to_sign(unit.ledger, unit.clock.today(), {})).size() == 1);
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
