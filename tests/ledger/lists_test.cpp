#include "ledger/lists.h"

#include <catch2/catch.hpp>
#include <set>

#include "late_clock.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using nlohmann::json;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

std::string recalls_of(const std::vector<ledger::RecallLine>& lines) {
  std::string line;
  for (const auto& recall : lines) line += (line.empty() ? "" : ", ") + recall.examination.exam;
  return line;
}

/// Examines `exam` on `date`, and has a clinician plan the next examination for `due`.
void plan(TemporaryLedger& unit, const std::string& exam, const char* date, const char* due,
          const json& conditions = json::array(),
          engine::Action action = engine::Action::surveillance_colonoscopy) {
  json record = a_record("H" + exam, exam, date, {});
  record["patient"]["conditions"] = conditions;
  unit.record(record);
  value_of(ledger::override_advice(unit.ledger, unit.author, exam, "Dr Rao",
                                   {action, engine::Window{day(due), day(due)}, "planned by hand"}, 0));
}

}  // namespace

TEST_CASE("every open recall is on one of the lists at any time", "[lists]") {
  TemporaryLedger unit;
  plan(unit, "E1", "2026-03-10", "2029-03-10");
  struct Row {
    const char* because;
    const char* today;
    const char* lists;
  };
  const auto row = GENERATE(values<Row>({
      {"43 days before the due date", "2029-01-26", ""},
      {"42 days before", "2029-01-27", "due"},
      {"on the due date", "2029-03-10", "due"},
      {"the last day that is not late", "2029-04-21", "due"},
      {"the first late day", "2029-04-22", "overdue"},
      {"ten years later", "2039-04-22", "overdue"},
  }));
  INFO(row.because);
  std::string lists;
  if (!value_of(ledger::due(unit.ledger, {}, day(row.today), {})).empty()) lists += "due";
  if (!value_of(ledger::overdue(unit.ledger, day(row.today), {})).empty()) lists += "overdue";
  CHECK(lists == row.lists);
}

TEST_CASE("a range of due dates has both its ends", "[lists]") {
  TemporaryLedger unit;
  plan(unit, "E1", "2026-03-10", "2029-03-10");
  plan(unit, "E2", "2026-03-10", "2029-03-20");
  plan(unit, "E3", "2026-03-10", "2029-03-31");
  const auto in = [&](std::optional<engine::Date> from, std::optional<engine::Date> to) {
    return recalls_of(value_of(ledger::due(unit.ledger, {from, to}, day("2029-03-01"), {})));
  };
  CHECK(in(day("2029-03-10"), day("2029-03-20")) == "E1, E2");
  CHECK(in(day("2029-03-11"), day("2029-03-30")) == "E2");
  CHECK(in(day("2029-03-21"), std::nullopt) == "E3");
  CHECK(in(std::nullopt, day("2029-03-10")) == "E1");
}

TEST_CASE("lateness is counted from the late date", "[lists]") {
  TemporaryLedger unit;
  plan(unit, "E1", "2026-03-10", "2029-03-10");
  const auto lines = value_of(ledger::overdue(unit.ledger, day("2029-04-26"), {}));
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].days_after_due == 47);
  CHECK(lines[0].days_late == 5);
}

TEST_CASE("risk comes first, then lateness in proportion to the interval", "[lists]") {
  const json lynch = {{{"name", "lynch syndrome"}, {"gene", "MLH1"}}};
  const json colitis = {{{"name", "ulcerative colitis"}, {"stricture", true}}};
  TemporaryLedger unit;
  plan(unit, "five-years-100-days", "2024-01-01", "2029-01-01");
  plan(unit, "one-year-50-days", "2028-02-20", "2029-02-20");
  plan(unit, "site-check", "2028-10-01", "2029-02-01", json::array(), engine::Action::site_check);
  plan(unit, "lynch", "2027-02-20", "2029-02-20", lynch);
  plan(unit, "colitis", "2028-02-20", "2029-02-20", colitis);
  CHECK(recalls_of(value_of(ledger::overdue(unit.ledger, day("2029-04-11"), {}))) ==
        "site-check, lynch, colitis, one-year-50-days, five-years-100-days");
}

TEST_CASE("a long list comes in pages that make up the whole", "[lists]") {
  TemporaryLedger unit;
  for (int i = 0; i < 7; ++i) plan(unit, "E" + std::to_string(i), "2026-03-10", "2029-03-10");
  const auto whole = recalls_of(value_of(ledger::due(unit.ledger, {}, day("2029-03-10"), {})));
  std::string paged;
  for (std::uint64_t offset = 0; offset < 9; offset += 3) {
    const auto page = recalls_of(value_of(ledger::due(unit.ledger, {}, day("2029-03-10"), {offset, 3})));
    paged += (paged.empty() || page.empty() ? "" : ", ") + page;
  }
  CHECK(paged == whole);
}

TEST_CASE("pathology that is out is listed by its band", "[lists]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.record(a_record("H2", "E2", "2026-03-01", {a_lesion("L1", nullptr)}));
  json large = a_lesion("L1", nullptr);
  large["removal"] = "piecemeal";
  large["size_mm"] = 30;
  unit.record(a_record("H3", "E3", "2026-01-01", {large}));
  unit.record(a_record("H4", "E4", "2026-03-01", {}));
  const auto lines = value_of(ledger::awaiting(unit.ledger, day("2026-03-12"), {}));
  std::string seen;
  for (const auto& line : lines) {
    seen += line.examination.exam + " " + std::string(ledger::text_of(line.band)) + " " +
            std::to_string(line.days) + "; ";
  }
  CHECK(seen == "E3 red 70; E2 amber 11; E1 grey 2; ");
  CHECK(engine::text_of(lines[0].earliest.value()) == "2026-03-01");
  CHECK(engine::text_of(lines[2].earliest.value()) == "2029-03-10");
  CHECK(value_of(ledger::awaiting(unit.ledger, day("2026-03-12"), {1, 1})).front().examination.exam == "E2");
}

TEST_CASE("no examination is without an outcome or a list", "[lists]") {
  // Every examination of a mixed day, and what became of each, step by step: the lists always hold the rest.
  TemporaryLedger unit;
  unit.record(a_record("H1", "stop", "2026-03-10", {}));
  unit.record(a_record("H2", "plan", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  unit.record(a_record("H3", "wait", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.record(a_record("H4", "refer", "2026-03-10", {a_lesion("L1", {{"type", "adenocarcinoma"}})}));
  std::set<std::string> settled;
  const auto check = [&](const char* step) {
    INFO(step);
    std::set<std::string> listed = settled;
    for (const auto& line : value_of(ledger::unplanned(unit.ledger, day("2026-03-20"), {}))) {
      CHECK(listed.insert(line.examination.exam).second);
    }
    for (const auto& line : value_of(ledger::awaiting(unit.ledger, day("2026-03-20"), {}))) {
      CHECK(listed.insert(line.examination.exam).second);
    }
    CHECK(listed == std::set<std::string>{"plan", "refer", "stop", "wait"});
  };
  check("at first");
  for (const char* exam : {"stop", "plan", "refer"}) {
    value_of(ledger::sign(unit.ledger, unit.author, exam, "Dr Rao", 0));
    settled.insert(exam);
    check(exam);
  }
  unit.result(a_result("wait", "L1", hyperplastic_polyp()));
  check("the result is in");
  value_of(ledger::sign(unit.ledger, unit.author, "wait", "Dr Rao", 0));
  settled.insert("wait");
  check("all signed");
}

TEST_CASE("the sweep counts what the lists hold", "[lists]") {
  TemporaryLedger unit;
  plan(unit, "E1", "2020-03-10", "2023-03-10");
  plan(unit, "E2", "2023-03-10", "2026-03-25");
  plan(unit, "E3", "2026-03-10", "2029-03-10");
  unit.record(a_record("H4", "E4", "2026-03-01", {a_lesion("L1", nullptr)}));
  unit.record(a_record("H5", "E5", "2026-03-10", {}));
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "{", "x"));
  const auto census = value_of(ledger::sweep(unit.ledger, day("2026-03-20")));
  CHECK(census.open == 3);
  CHECK(census.due == 1);
  CHECK(census.overdue == 1);
  CHECK(census.to_close == 0);
  CHECK(census.awaiting == 1);
  CHECK(census.awaiting_red == 1);
  CHECK(census.unplanned == 1);
  CHECK(census.inputs == 1);
}
