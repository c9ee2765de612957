#include "ledger/measures.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "ledger/lookback.h"
#include "ledger/protocol.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "measures/counting.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using nlohmann::json;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

/// `1/2`, and ` (1 left out)` when there are any.
std::string share(const TemporaryLedger& unit, const std::string& id, const char* today,
                  const ledger::Period& period = {}) {
  const auto all = value_of(ledger::measures(unit.ledger, period, day(today)));
  const auto measure = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.id == id; });
  REQUIRE(measure != all.end());
  const auto left_out = measure->cases.size() - measure->denominator();
  return std::to_string(measure->numerator()) + "/" + std::to_string(measure->denominator()) +
         (left_out == 0 ? "" : " (" + std::to_string(left_out) + " left out)");
}

json changed(json record, const char* key, const json& value) {
  if (value.is_null()) {
    record["exam"].erase(key);
  } else {
    record["exam"][key] = value;
  }
  return record;
}

}  // namespace

TEST_CASE("what an examination was like is counted, and what is not stated is left out", "[measures]") {
  struct Row {
    const char* because;
    const char* measure;
    const char* key;
    json value;
    const char* share;
  };
  const json lost = [] {
    json lesion = a_lesion("L1", nullptr);
    lesion["retrieved"] = false;
    lesion["number"] = 3;
    return json::array({lesion});
  }();
  const std::vector<Row> rows = {
      {"the caecum was reached", "caecal-intubation", "reached", "caecum", "1/1"},
      {"the ileum lies behind it", "caecal-intubation", "reached", "terminal ileum", "1/1"},
      {"it was not", "caecal-intubation", "reached", "hepatic flexure", "0/1"},
      {"nobody said how far", "caecal-intubation", "reached", nullptr, "0/0 (1 left out)"},
      {"a sigmoidoscopy is no colonoscopy", "caecal-intubation", "procedure", "flexible sigmoidoscopy",
       "0/0"},
      {"graded adequate", "preparation", "preparation", {{"graded", "adequate"}}, "1/1"},
      {"graded fair", "preparation", "preparation", {{"graded", "fair"}}, "0/1"},
      {"every segment at two",
       "preparation",
       "preparation",
       {{"boston", {{"right", 2}, {"transverse", 2}, {"left", 2}}}},
       "1/1"},
      {"one segment at one",
       "preparation",
       "preparation",
       {{"boston", {{"right", 1}, {"transverse", 3}, {"left", 3}}}},
       "0/1"},
      {"not stated", "preparation", "preparation", nullptr, "0/0 (1 left out)"},
      {"an adenoma", "adenoma-detection", "lesions", json::array({a_lesion("L1", tubular_adenoma())}), "1/1"},
      {"no adenoma", "adenoma-detection", "lesions", json::array({a_lesion("L1", hyperplastic_polyp())}),
       "0/1"},
      {"nothing found", "adenoma-detection", "lesions", json::array(), "0/1"},
      {"histology awaited", "adenoma-detection", "lesions", json::array({a_lesion("L1", nullptr)}),
       "0/0 (1 left out)"},
      {"retrieved", "polyp-retrieval", "lesions", json::array({a_lesion("L1", nullptr)}), "1/1"},
      {"three lost", "polyp-retrieval", "lesions", lost, "0/3"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    TemporaryLedger unit;
    unit.record(changed(a_record("H1", "E1", "2026-03-10", {}), row.key, row.value));
    CHECK(share(unit, row.measure, "2026-03-20") == row.share);
  }
}

TEST_CASE("a pot is counted when its limit has passed, reported or not", "[measures]") {
  TemporaryLedger unit;
  for (const char* exam : {"E1", "E2"})
    unit.record(a_record(std::string("H") + exam, exam, "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));  // reported on 2026-03-19, after nine days
  CHECK(share(unit, "pathology-7", "2026-03-17") == "0/0 (2 left out)");
  CHECK(share(unit, "pathology-7", "2026-03-18") == "0/2");
  CHECK(share(unit, "pathology-10", "2026-03-20") == "0/0 (2 left out)");
  CHECK(share(unit, "pathology-10", "2026-03-21") == "1/2");
  CHECK(share(unit, "pathology-14", "2026-03-25") == "1/2");
}

TEST_CASE("five working days have a weekend in between", "[measures]") {
  struct Row {
    const char *because, *from, *to;
    std::int64_t days;
  };
  const auto row = GENERATE(values<Row>({
      {"the same day", "2026-03-19", "2026-03-19", 0},
      {"Thursday to Friday", "2026-03-19", "2026-03-20", 1},
      {"Thursday to Sunday", "2026-03-19", "2026-03-22", 1},
      {"Thursday to Thursday", "2026-03-19", "2026-03-26", 5},
      {"backwards", "2026-03-19", "2026-03-18", 0},
  }));
  INFO(row.because);
  CHECK(ledger::working_days_between(day(row.from), day(row.to)) == row.days);
}

TEST_CASE("a report is acted on when its outcome is signed within five working days", "[measures]") {
  struct Row {
    const char *because, *signed_on, *share;
  };
  const auto row = GENERATE(values<Row>({
      {"on the fifth working day", "2026-03-26", "1/1"},
      {"on the sixth", "2026-03-27", "0/1"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  CHECK(share(unit, "acted-on", "2026-03-26") == "0/0 (1 left out)");
  unit.clock.set(row.signed_on);
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(share(unit, "acted-on", "2026-04-10") == row.share);
}

TEST_CASE("an examination is in line when it was signed as computed", "[measures]") {
  TemporaryLedger unit;
  for (const char* exam : {"as-computed", "otherwise", "open"})
    unit.record(a_record(std::string("H") + exam, exam, "2026-03-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "as-computed", "Dr Rao", 0));
  value_of(ledger::override_advice(unit.ledger, unit.author, "otherwise", "Dr Rao",
                                   {engine::Action::no_surveillance, {}, "declined"}, 0));
  CHECK(share(unit, "in-line", "2026-03-20") == "1/2 (1 left out)");
  CHECK(share(unit, "in-line", "2026-03-20", {day("2026-03-11"), {}}) == "0/0");
}

TEST_CASE("a recall is on time by several limits", "[measures]") {
  TemporaryLedger unit;
  unit.clock.set("2023-03-20");
  unit.record(a_record("H1", "E1", "2023-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  unit.clock.set("2026-05-20");
  unit.record(a_record("H1", "E2", "2026-05-10", {}));  // due on 2026-03-10: 61 days after
  CHECK(share(unit, "on-time-0", "2026-05-20") == "0/1");
  CHECK(share(unit, "on-time-42", "2026-05-20") == "0/1");
  CHECK(share(unit, "on-time-90", "2026-05-20") == "0/0 (1 left out)");
  CHECK(share(unit, "on-time-90", "2026-06-09") == "1/1");
}

TEST_CASE("limits of on time are their own, whatever the protocol calls late", "[measures]") {
  TemporaryLedger unit;
  unit.clock.set("2023-03-20");
  ledger::NewProtocol strict;
  strict.terms.late_after_days = 7;
  strict.from = day("2023-01-01");
  strict.clinician = "Dr Rao";
  strict.reason = "ours";
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, strict));
  unit.record(a_record("H1", "E1", "2023-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::string recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  ledger::MoveDetails away;
  away.reason = "abroad";
  away.from = day("2026-03-12");
  away.to = day("2026-03-21");  // ten days that do not count
  SECTION("counted from the due date") {
    unit.clock.set("2026-04-25");
    unit.record(a_record("H1", "E2", "2026-04-21", {}));  // 42 days after 2026-03-10
    CHECK(share(unit, "on-time-42", "2026-04-25") == "1/1");
    CHECK(share(unit, "on-time-0", "2026-04-25") == "0/1");
  }
  SECTION("days not ready move them") {
    value_of(ledger::move_recall(unit.ledger, unit.author, recall, ledger::Move::defer, away));
    unit.clock.set("2026-05-25");
    unit.record(a_record("H1", "E2", "2026-05-01", {}));  // 52 days after, ten of them not ready
    CHECK(share(unit, "on-time-42", "2026-05-25") == "1/1");
    CHECK(share(unit, "on-time-0", "2026-05-25") == "0/1");
  }
}

TEST_CASE("a lookback lists the examinations that match, and what stands for each", "[measures]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  const std::string recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  unit.record(changed(a_record("H2", "E2", "2026-03-12", {}), "preparation", {{"graded", "poor"}}));
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
  unit.record(changed(a_record("H3", "E3", "2026-03-14", {}), "endoscopist", "Dr Other"));
  struct Row {
    const char* because;
    ledger::LookbackFilter filter;
    std::string found;
  };
  const std::string first = "E1: recall " + recall + " is opened, due 2029-03-10; ";
  const std::string second = "E2: no recall: return to screening; ", third = "E3: without an outcome yet; ";
  const std::vector<Row> rows = {
      {"everything", {}, first + second + third},
      {"an endoscopist, letter case aside", {{}, "dr invented", "", "", "", ""}, first + second},
      {"a laboratory's reporter", {{}, "", "", "Dr Made-Up", "", ""}, first},
      {"a preparation", {{}, "", "", "", "", "inadequate"}, second},
      {"a ruleset", {{}, "", "", "", "test-a", ""}, first + second},
      {"a time", {{day("2026-03-12"), day("2026-03-14")}, "", "", "", "", ""}, second + third},
      {"a place that is not there", {{}, "", "Elsewhere", "", "", ""}, ""},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    std::string found;
    for (const auto& line : value_of(ledger::lookback(unit.ledger, row.filter)))
      found += line.examination.exam + ": " + line.stands + "; ";
    CHECK(found == row.found);
  }
}
