#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

std::vector<json> lines_of(const std::string& text) {
  std::vector<json> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(json::parse(line));
  return lines;
}

std::string with_adenoma() {
  return a_record("H1", "E1", "2026-03-10", {a_lesion("L1", support::tubular_adenoma())}).dump();
}
std::string awaited() {
  return a_record("H2", "E2", "2026-03-10", {a_lesion("L1", nullptr)}).dump();
}
std::string clear() {
  return a_record("H3", "E3", "2026-03-10", {}).dump();
}

}  // namespace

TEST_CASE("many records in, one answer a line out, in the same order", "[cli]") {
  const TemporaryUnit unit;
  const std::string input =
      "{\"id\":\"a\",\"given\":" + with_adenoma() + "}\n" + "{\"id\":\"b\",\"given\":{\"patient\":{}}}\n\n" +
      "not json\n" + "{\"id\":\"d\",\"given\":" + awaited() + "}\n{\"id\":\"e\",\"given\":" + clear() + "}\n";
  const Finished finished = unit.advise({"--json", "-"}, input);
  const std::vector<json> answers = lines_of(finished.out);
  REQUIRE(answers.size() == 5);
  CHECK(answers[0]["id"] == "a");
  CHECK(answers[0]["state"] == "settled");
  CHECK(answers[0]["due"]["from"] == "2029-03-10");
  CHECK(answers[1]["id"] == "b");
  CHECK(answers[1]["state"] == "refused");
  CHECK(answers[2]["state"] == "refused");
  CHECK(answers[3]["state"] == "awaiting pathology");
  CHECK(answers[4]["action"] == "return to screening");
  CHECK(finished.code == 1);  // two were refused
}

TEST_CASE("all answered is exit code 0", "[cli]") {
  const TemporaryUnit unit;
  CHECK(unit.advise({"--json"}, with_adenoma() + "\n" + awaited() + "\n").code == 0);
}

TEST_CASE("an answer comes as soon as its record is complete", "[cli]") {
  const TemporaryUnit unit;
  support::RunningProgram program(
      {"advise", "-", "--json", "--ruleset", "test-a", "--rulesets", unit.rulesets, "--today", unit.today});
  for (const char* id : {"first", "second"}) {
    program.write("{\"id\":\"" + std::string(id) + "\",\"given\":" + clear() + "}\n");
    CHECK(json::parse(program.read_line())["id"] == id);
  }
  CHECK(program.finish().code == 0);
}

TEST_CASE("files are answered one after the other", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = unit.advise(
      {"--json", unit.file("a.json", with_adenoma()), unit.file("b.jsonl", clear() + "\n" + awaited())});
  CHECK(lines_of(finished.out).size() == 3);
}

TEST_CASE("a record written over several lines is one record", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = unit.advise({"--json", unit.file("a.json", json::parse(with_adenoma()).dump(2))});
  REQUIRE(lines_of(finished.out).size() == 1);
  CHECK(lines_of(finished.out)[0]["state"] == "settled");
}

TEST_CASE("with several rulesets each answers and the earliest leads", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished =
      unit.advise({"--json", "--ruleset", "test-a", "--ruleset", "test-b"}, with_adenoma());
  const json answer = json::parse(finished.out);
  CHECK(answer["ruleset"]["id"] == "test-b");
  REQUIRE(answer["answers"].size() == 2);
  CHECK(answer["answers"][0]["ruleset"]["id"] == "test-a");
  CHECK(answer["answers"][1]["ruleset"]["id"] == "test-b");

  const Finished text = unit.advise({"--ruleset", "test-a", "--ruleset", "test-b"}, with_adenoma());
  CHECK(
      text.out.starts_with("  test-a: surveillance colonoscopy, due from 2029-03-10\n"
                           "* test-b: surveillance colonoscopy, due from 2027-03-10\n"));
}

TEST_CASE("text answers first and cautions last", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = unit.advise({unit.file("a.json", with_adenoma())});
  CHECK(finished.code == 0);
  CHECK(finished.out.starts_with("Surveillance colonoscopy"));
  CHECK(finished.out.find("T-03") != std::string::npos);
  CHECK(finished.out.find("does not replace the judgement") != std::string::npos);
}

TEST_CASE("a refused record is shown with its place", "[cli]") {
  const TemporaryUnit unit;
  json record = json::parse(with_adenoma());
  record["exam"]["lesions"][0]["sise_mm"] = 4;
  const std::string file = unit.file("a.json", record.dump());
  const Finished finished = unit.advise({file});
  CHECK(finished.code == 1);
  CHECK(finished.out.find("exam.lesions[0].sise_mm") != std::string::npos);
  CHECK(finished.out.find("did you mean `size_mm`?") != std::string::npos);
}

TEST_CASE("settings on the command line reach every record, and a wrong one stops the run", "[cli]") {
  const TemporaryUnit unit;
  CHECK(unit.advise({"--json", "--setting", "nation=Scotland"}, clear()).code == 0);
  const Finished finished = unit.advise({"--json", "--setting", "natoin=Scotland"}, clear());
  CHECK(finished.code == 2);
  CHECK(finished.out.empty());
}

TEST_CASE("nothing to answer is an error", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = unit.advise({"--json"}, "\n\n");
  CHECK(finished.code == 3);
  CHECK(json::parse(finished.err)["errors"][0]["code"] == "no_record");
}
