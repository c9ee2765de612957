#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "support/records.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::run_program;
using support::TemporaryUnit;

namespace {

std::string a_case(const std::string& id, const std::vector<json>& lesions, const std::string& action,
                   const json& interval) {
  return json{{"id", id},
              {"given", support::a_record("H1", "E1", "2026-03-10", lesions)},
              {"expect", {{"action", action}, {"interval", interval}, {"why", "made for tests"}}}}
             .dump() +
         "\n";
}

Finished run(const TemporaryUnit& unit, std::vector<std::string> words) {
  words.insert(words.begin(), "rulesets");
  words.insert(words.end(), {"--rulesets", unit.rulesets});
  return run_program(words);
}

const json three_years = {{"from", "P3Y"}, {"to", "P36M"}};

}  // namespace

TEST_CASE("the list names every ruleset", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = run(unit, {"list"});
  CHECK(finished.code == 0);
  CHECK(finished.out.find("test-a  1.0.0") != std::string::npos);
  CHECK(finished.out.find("test-b  1.0.0") != std::string::npos);
}

TEST_CASE("the list as JSON has a line for each, with the whole digest", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/test-a/guideline.cases.jsonl", "{}\n\n{}\n");
  const Finished finished = run(unit, {"list", "--json"});
  const json first = json::parse(finished.out.substr(0, finished.out.find('\n')));
  CHECK(first["id"] == "test-a");
  CHECK(first["state"] == "current");
  CHECK(first["digest"] == engine::digest_text(support::small_protocol().front().bytes));
  CHECK(first["rows"] == 4);
  CHECK(first["cases"] == 2);
}

TEST_CASE("a ruleset that cannot be loaded does not hide the others from the list", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/bad/ruleset.dmn", "<definitions");
  const Finished finished = run(unit, {"list"});
  CHECK(finished.code == 3);
  CHECK(finished.out.find("test-a  1.0.0") != std::string::npos);
  CHECK(finished.err.find("bad/ruleset.dmn") != std::string::npos);
}

TEST_CASE("show writes a page as text, Markdown or HTML", "[cli]") {
  const TemporaryUnit unit;
  struct Row {
    const char* format;
    std::vector<const char*> words;
  };
  const Row rows[] = {
      {"text", {"Made for tests", "  Next step", "T-03"}},
      {"markdown",
       {"# test-a: Made for tests\n", "| T-03 | a rule made for tests | none: made for tests | engine |\n",
        "### Next step\n", "```feel\nif some l in exam.lesions", "\n| row | when exam.id | then row |\n"}},
      {"html",
       {"<h1>test-a: Made for tests</h1>", "<td>T-03</td><td>a rule made for tests</td>",
        "<h3>Next step</h3>", "l.size_mm &gt;= 20"}},
  };
  for (const Row& row : rows) {
    const Finished finished = run(unit, {"show", "test-a", "--format", row.format});
    CHECK(finished.code == 0);
    for (const char* words : row.words) {
      INFO(row.format << ": " << words);
      CHECK(finished.out.find(words) != std::string::npos);
    }
  }
}

// Outside check: the parser of Python's standard library reads the page as well-formed XML would be read.
TEST_CASE("the HTML page is closed and quoted as it should be", "[cli]") {
  const TemporaryUnit unit;
  const std::string file = unit.file("page.html", run(unit, {"show", "test-a", "--format", "html"}).out);
  const auto parsed =
      support::shell("python3 -c \"import sys,xml.dom.minidom as x; t=open('" + file +
                     "').read().replace('<!doctype html>','').replace('<meta charset=\\\"utf-8\\\">',''); "
                     "print(len(x.parseString(t).getElementsByTagName('table')))\"");
  CHECK(parsed.printed == "3\n");  // about it, its rows, its one decision table
}

TEST_CASE("coverage counts the cases that reach each row", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/test-a/guideline.cases.jsonl",
                      a_case("c1", {support::a_lesion("L1", support::tubular_adenoma())},
                             "surveillance colonoscopy", three_years) +
                          a_case("c2", {support::a_lesion("L1", support::tubular_adenoma())},
                                 "surveillance colonoscopy", three_years) +
                          a_case("c3", {}, "return to screening", nullptr));
  const Finished text = run(unit, {"coverage", "test-a"});
  CHECK(text.code == 1);  // two rows are not reached
  CHECK(text.out.starts_with("test-a: 3 cases reach 2 of 4 rows (by evidence: engine 2 of 4)\n"));
  CHECK(text.out.find("T-01  engine    0      no case\n") != std::string::npos);
  CHECK(text.out.find("T-03  engine    2      c1, c2\n") != std::string::npos);

  const json whole = json::parse(run(unit, {"coverage", "test-a", "--json"}).out);
  CHECK(whole["unreached"] == json({"T-01", "T-02"}));
  CHECK(whole["rows"][2] == json({{"row", "T-03"}, {"evidence", "engine"}, {"cases", {"c1", "c2"}}}));
}

TEST_CASE("show prints each row with what it says and where that stands", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = run(unit, {"show", "test-a"});
  CHECK(finished.code == 0);
  for (const char* words :
       {"test-a", "sha256:", "T-03", "a rule made for tests", "none: made for tests [engine]"}) {
    INFO(words);
    CHECK(finished.out.find(words) != std::string::npos);
  }
}

TEST_CASE("check answers the worked cases", "[cli]") {
  const TemporaryUnit unit;
  const std::string right = a_case("c1", {support::a_lesion("L1", support::tubular_adenoma())},
                                   "surveillance colonoscopy", three_years) +
                            a_case("c2", {}, "return to screening", nullptr);
  const std::string path = unit.rulesets + "/test-a/guideline.cases.jsonl";

  SECTION("all right") {
    support::write_file(path, right);
    const Finished finished = run(unit, {"check", "test-a"});
    CHECK(finished.out.starts_with("test-a: 2 of 2 cases as the guideline answers\n"));
    // Its code is 1 all the same: this ruleset breaks laws. planted_test.cpp has one that is sound.
    CHECK(finished.err.find("never waits long") != std::string::npos);
  }
  SECTION("rows that no case reaches are named") {
    support::write_file(path, right);
    CHECK(run(unit, {"check", "test-a"}).out.find("rows that no case reaches: T-01, T-02\n") !=
          std::string::npos);
  }
  SECTION("a wrong one is shown with both answers") {
    support::write_file(path, right + a_case("c3", {}, "surveillance colonoscopy", three_years));
    const Finished finished = run(unit, {"check", "test-a"});
    CHECK(finished.code == 1);
    CHECK(
        finished.out.starts_with("test-a: 2 of 3 cases as the guideline answers\n  c3\n"
                                 "    expected  surveillance colonoscopy P3Y\n"
                                 "    answered  settled: return to screening [T-04]\n"));
  }
  SECTION("an interval that differs is wrong") {
    support::write_file(path, a_case("c1", {support::a_lesion("L1", support::tubular_adenoma())},
                                     "surveillance colonoscopy", {{"from", "P3Y"}, {"to", "P5Y"}}));
    const Finished finished = run(unit, {"check", "test-a"});
    CHECK(finished.code == 1);
    CHECK(finished.out.find("    answered  settled: surveillance colonoscopy P3Y [T-03]\n") != std::string::npos);
  }
  SECTION("a line that is no case is refused with its place") {
    support::write_file(path, right + "{\"id\":\"c9\"}\n");
    const Finished finished = run(unit, {"check", "test-a"});
    CHECK(finished.code == 3);
    CHECK(finished.err.find("guideline.cases.jsonl:3:1: error: ") != std::string::npos);
  }
  SECTION("no case is no proof") {
    support::write_file(path, "\n");
    const Finished finished = run(unit, {"check", "test-a"});
    CHECK(finished.code == 1);
    CHECK(finished.out.starts_with("test-a: 0 of 0 cases"));
  }
}

// Outside check: sha256sum of GNU coreutils.
TEST_CASE("verify prints the digest of the bytes", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = run(unit, {"verify", "test-a"});
  const auto sum = support::shell("sha256sum " + unit.rulesets + "/test-a/ruleset.dmn | cut -d' ' -f1");
  CHECK(finished.out == "sha256:" + sum.printed.substr(0, 64) + "  test-a 1.0.0\n");
}

TEST_CASE("a ruleset whose folder has another name is refused", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/test-c/ruleset.dmn", support::small_protocol().front().bytes);
  const Finished finished = run(unit, {"verify", "test-c"});
  CHECK(finished.code == 3);
  CHECK(finished.err.find("calls itself `test-a`") != std::string::npos);
}
