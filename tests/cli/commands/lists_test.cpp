// The lists and counts as a person asks for them: every list in every format, and what the counts say.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/layout.h"
#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

/// One signed and due, one to be signed, one whose pathology is out.
void fill(const TemporaryUnit& unit) {
  json due = a_record("H1", "E1", "2023-03-10", {a_lesion("L1", support::tubular_adenoma())});
  due["patient"]["needs"] = {
      {{"flag", "anticoagulant"}, {"since", "2024-02-01"}, {"source", "pre-assessment"}}};
  const json to_sign = a_record("H2", "E2", "2026-03-10", {});
  const json awaited = a_record("H3", "E3", "2026-03-10", {a_lesion("L1", nullptr)});
  const std::string lines = due.dump() + "\n" + to_sign.dump() + "\n" + awaited.dump() + "\n";
  REQUIRE(unit.receive({"record", unit.file("a.jsonl", lines)}).code == 0);
  REQUIRE(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}).code == 0);
}

/// The list without its run stamp, which holds the second in which it was made: two runs may differ in it.
json as_json(const TemporaryUnit& unit, std::vector<std::string> words) {
  words.insert(words.end(), {"--format", "json"});
  const Finished finished = unit.run_today(words);
  INFO(finished.err);
  REQUIRE(finished.code == 0);
  json list = json::parse(finished.out);
  REQUIRE(list.erase("stamp") == 1);
  return list;
}

const std::vector<std::string> lists = {"due",    "overdue",  "awaiting", "unplanned", "to-sign",
                                        "to-vet", "no-reply", "to-close", "to-resend", "inputs"};

}  // namespace

TEST_CASE("every list comes in every format", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  for (const std::string& name : lists) {
    for (const char* format : {"text", "json", "csv", "html"}) {
      const Finished finished = unit.run_today({name, "--format", format});
      INFO(name << " " << format << " " << finished.err);
      CHECK(finished.code == 0);
      CHECK_FALSE(finished.out.empty());
    }
  }
}

TEST_CASE("each list holds whom it says", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  struct Row {
    const char* list;
    const char* exams;
  };
  for (const Row& row :
       {Row{"due", "E1 "}, Row{"overdue", ""}, Row{"awaiting", "E3 "}, Row{"unplanned", "E2 "},
        Row{"to-sign", "E2 "}, Row{"to-vet", "E1 "}, Row{"no-reply", ""}, Row{"to-close", ""}}) {
    INFO(row.list);
    std::string exams;
    const json page = as_json(unit, {row.list});
    for (const json& line : page["rows"]) exams += line["exam"].get<std::string>() + " ";
    CHECK(exams == row.exams);
  }
}

TEST_CASE("a due list tells contacts, vetting and what to think of before the examination", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const std::string recall = as_json(unit, {"due"})["rows"][0]["recall"];
  REQUIRE(unit.run_today({"recall", "vet", recall, "--by", "Dr Other"}).code == 0);
  REQUIRE(unit.run_today({"recall", "invite", recall, "--means", "letter"}).code == 0);
  const json row = as_json(unit, {"due"})["rows"][0];
  CHECK(row["vetted_by"] == "Dr Other");
  CHECK(row["vetted_on"] == unit.today);
  CHECK(row["contacts"] == "letter " + unit.today);
  CHECK(row["pre_assessment"] == "anticoagulant (since 2024-02-01, pre-assessment)");
  CHECK(row["days_after_due"] == 10);
  CHECK(row["interval_days"] == 1096);
  CHECK(as_json(unit, {"to-vet"})["count"] == 0);
}

TEST_CASE("open recalls add up over the lists", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  CHECK(as_json(unit, {"due"})["reconciliation"] == "Open recalls: 1 = due later 0 + due 1 + overdue 0.");
}

TEST_CASE("a list from one place says so, and leaves the others out", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const json here = as_json(unit, {"due", "--place", "Example Unit"});
  CHECK(here["count"] == 1);
  CHECK(here["filters"][0] == "place Example Unit");
  CHECK(as_json(unit, {"due", "--place", "Elsewhere"})["count"] == 0);
}

TEST_CASE("a calendar names no one unless asked, and a list without days is refused as one", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const Finished plain = unit.run_today({"due", "--format", "ics"});
  CHECK(plain.out.find("DTSTART;VALUE=DATE:20260310\r\n") != std::string::npos);
  CHECK(plain.out.find("Example") == std::string::npos);
  CHECK(unit.run_today({"due", "--format", "ics"}).out == plain.out);  // nothing changed: the same bytes
  CHECK(unit.run_today({"due", "--format", "ics", "--names"}).out.find("Example\\, Ada") !=
        std::string::npos);
  CHECK(unit.run_today({"awaiting", "--format", "ics"}).out.find("20260325") != std::string::npos);
  const Finished refused = unit.run_today({"to-sign", "--format", "ics"});
  CHECK(refused.code == 2);
  CHECK(refused.err.find("has no days") != std::string::npos);
}

TEST_CASE("counts and measures fit the page and come as CSV and JSON", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  for (const std::vector<std::string>& words : {std::vector<std::string>{"forecast"},
                                                {"census"},
                                                {"audit", "measures"},
                                                {"audit", "measures", "--patients"},
                                                {"audit", "lookback"}}) {
    INFO(words.back());
    const Finished finished = unit.run_today(words);
    CHECK(finished.code == 0);
    CHECK(finished.out.ends_with("local policy decides.\n"));
    std::istringstream lines(finished.out);
    for (std::string line; std::getline(lines, line);) CHECK(cli::width_of(line) <= cli::page_width);
    CHECK(as_json(unit, words).is_object());
    std::vector<std::string> csv = words;
    csv.insert(csv.end(), {"--format", "csv"});
    CHECK(unit.run_today(csv).out.find("\r\n") != std::string::npos);
  }
}

TEST_CASE("a forecast has sixty months and offers missed appointments again", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const json page = as_json(unit, {"forecast", "--non-attendance", "10"});
  REQUIRE(page["months"].size() == 60);
  CHECK(page["months"][0]["appointments"] == "1.0");
  CHECK(page["months"][0]["attended"] == "0.9");
  CHECK(page["months"][1]["appointments"] == "0.1");
  const Finished chart = unit.run_today({"forecast", "--format", "svg"});
  CHECK(chart.out.starts_with("<svg xmlns="));
  CHECK(unit.run_today({"forecast", "--non-attendance", "100"}).code == 2);
}

TEST_CASE("re-vetting shows who moves and changes nothing", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const std::string before = unit.run({"audit", "verify"}).out;
  const std::vector<std::string> words = {"revet", "--to", "test-b", "--rulesets", unit.rulesets};
  const json page = as_json(unit, words);
  CHECK(page["counts"]["sooner"] == 1);
  CHECK(page["counts"]["read"] == 1);
  CHECK(page["rows"][0]["due"] == "2026-03-10");
  CHECK(page["rows"][0]["new_due"] == "2024-03-10");
  CHECK(unit.run({"audit", "verify"}).out == before);
  CHECK(unit.run_today({"revet", "--to", "test-z", "--rulesets", unit.rulesets}).code == 2);
}

TEST_CASE("measures name the patients behind by their numbers only", "[cli]") {
  const TemporaryUnit unit;
  fill(unit);
  const Finished shown = unit.run_today({"audit", "measures", "--patients"});
  CHECK(shown.out.find("E3  counted") != std::string::npos);
  CHECK(shown.out.find("Example") == std::string::npos);
  CHECK(unit.run_today({"audit", "measures"}).out.find("E3  counted") == std::string::npos);
}

TEST_CASE("the first rows of a list say of how many", "[cli]") {
  const TemporaryUnit unit;
  std::string lines;
  for (int i = 0; i < 3; ++i) {
    const std::string number = std::to_string(i);
    lines += a_record("H" + number, "E" + number, "2026-03-1" + number, {}).dump() + "\n";
  }
  REQUIRE(unit.receive({"record", unit.file("a.jsonl", lines)}).code == 0);
  for (int i = 0; i < 3; ++i) {
    REQUIRE(unit.run_today({"advice", "override", "E" + std::to_string(i), "--by", "Dr Invented", "--action",
                            "surveillance colonoscopy", "--from", unit.today, "--reason", "agreed"})
                .code == 0);
  }
  const std::string list = GENERATE("due", "to-vet");
  INFO(list);
  const std::string text = unit.run_today({list, "--limit", "2"}).out;
  CHECK(text.find("\nOnly: the first 2\nShown: 2 of 3.\n") != std::string::npos);
  const json page = as_json(unit, {list, "--limit", "2"});
  CHECK(page["count"] == 2);
  CHECK(page["unfiltered"] == 3);
  CHECK(page["filters"] == json::array({"the first 2"}));
  const json all = as_json(unit, {list});
  CHECK(page["rows"] == json::array({all["rows"][0], all["rows"][1]}));
  CHECK(page["counts"] == all["counts"]);
  CHECK(as_json(unit, {list, "--limit", "3"}) == all);
  CHECK(unit.run_today({list, "--limit", "2", "--format", "csv"}).out.find(",the first 2,1,2\r\n") !=
        std::string::npos);
  CHECK(unit.run_today({list, "--limit", "0"}).code == 2);
}

TEST_CASE("the first rows are those of what is left by a filter", "[cli]") {
  const TemporaryUnit unit;
  std::string lines;
  for (int i = 0; i < 4; ++i) {
    json record = a_record("H" + std::to_string(i), "E" + std::to_string(i), "2026-03-10", {});
    record["exam"]["place"] = i % 2 == 0 ? "Room 1" : "Room 2";
    lines += record.dump() + "\n";
  }
  REQUIRE(unit.receive({"record", unit.file("a.jsonl", lines)}).code == 0);
  const json page = as_json(unit, {"unplanned", "--place", "Room 2", "--limit", "1"});
  CHECK(page["count"] == 1);
  CHECK(page["unfiltered"] == 4);
  CHECK(page["filters"] == json::array({"place Room 2", "the first 1"}));
  CHECK(page["rows"][0]["exam"] == "E1");
}
