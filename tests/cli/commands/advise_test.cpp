#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/places.h"
#include "support/records.h"
#include "support/shell.h"
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

TEST_CASE("several ids stand behind one --ruleset, and the file behind them is no id", "[cli]") {
  const TemporaryUnit unit;
  const std::string file = unit.file("a.json", with_adenoma());
  const Finished finished = unit.advise({"--json", "--ruleset", "test-a", "test-b", file});
  INFO(finished.err);
  CHECK(json::parse(finished.out)["answers"].size() == 2);

  const Finished unknown = unit.advise({"--json", "--ruleset", "test-a", "test-x", file});
  CHECK(unknown.code == 2);
  CHECK(json::parse(unknown.err)["errors"][0]["code"] == "unknown_ruleset");
}

TEST_CASE("the variables name rulesets or a protocol when the command line names neither", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/protocols/unit.json",
                      R"({"id":"unit","title":"t","rulesets":["test-b","test-a"],"interval_end":"from"})");
  const std::string file = unit.file("a.json", with_adenoma());
  const auto answered = [&](const std::string& variables, const std::string& words) {
    const auto result = support::shell(variables + " " + support::program() + " advise --json --rulesets " +
                                       unit.rulesets + " " + words + " " + file);
    const json answer = json::parse(result.printed);
    return answer.contains("answers") ? answer["answers"].size() : 1;
  };
  CHECK(answered("DUEWARD_RULESET='test-a test-b'", "") == 2);
  CHECK(answered("DUEWARD_RULESET='test-a test-b'", "--ruleset test-b") == 1);
  CHECK(answered("DUEWARD_PROTOCOL=unit", "") == 2);
  CHECK(answered("DUEWARD_RULESET=test-a", "--protocol unit") == 2);
}

TEST_CASE("a ruleset that the manifest does not name answers only when told to, and says so", "[cli]") {
  const TemporaryUnit unit;
  const std::string manifest = unit.rulesets + "/MANIFEST";
  std::string doubt;
  SECTION("the file changed") {
    const std::string file = unit.rulesets + "/test-a/ruleset.dmn";
    support::write_file(file, support::read_text(file) + "\n");
    doubt = "it has the digest `sha256:";
  }
  SECTION("the manifest does not name it") {
    support::write_file(manifest, "");
    doubt = "does not name it";
  }
  SECTION("there is no manifest") {
    std::filesystem::remove(manifest);
    doubt = "there is no `";
  }
  const Finished refused = unit.advise({}, with_adenoma());
  CHECK(refused.code == 3);
  CHECK(refused.out.empty());
  CHECK(refused.err.find("the ruleset `test-a` is not verified: ") != std::string::npos);
  CHECK(refused.err.find(doubt) != std::string::npos);

  const Finished answered = unit.advise({"--json", "--unverified"}, with_adenoma() + "\n" + clear());
  CHECK(answered.code == 0);
  for (const json& answer : lines_of(answered.out))
    CHECK(answer["cautions"][0] ==
          "`test-a` was used unverified: its file is not the one that the manifest of the rulesets names");
}

TEST_CASE("with a ruleset of the manifest --unverified adds nothing", "[cli]") {
  const TemporaryUnit unit;
  CHECK(unit.advise({"--json", "--unverified"}, with_adenoma()).out ==
        unit.advise({"--json"}, with_adenoma()).out);
}

TEST_CASE("with --compare the answers stand beside each other with what makes them differ", "[cli]") {
  const TemporaryUnit unit;
  const Finished text = unit.advise({"--compare", "--ruleset", "test-a", "test-b"}, with_adenoma());
  for (const char* words : {"test-a              surveillance            2029-03-10     T-03",
                            "2027-03-10     T-01", "What makes them differ:\n",
                            "test-a T-03 says: a rule made for tests", "does not replace the judgement"}) {
    INFO(words << "\n" << text.out);
    CHECK(text.out.find(words) != std::string::npos);
  }
  const json line =
      json::parse(unit.advise({"--json", "--compare", "--ruleset", "test-a", "test-b"}, with_adenoma()).out);
  CHECK(line["agree"] == false);
  REQUIRE(line["compare"].size() == 2);
  CHECK(line["compare"][0]["ruleset"]["id"] == "test-a");
  CHECK(line["compare"][0]["says"] == "a rule made for tests");
  CHECK(line["compare"][1]["due"]["from"] == "2027-03-10");
}

TEST_CASE("rulesets that agree are said to", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(
      unit.rulesets + "/test-c/ruleset.dmn",
      support::small_dmn("test-c", support::small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-02")));
  unit.write_manifest();
  CHECK(unit.advise({"--compare", "--ruleset", "test-b", "test-c"}, clear()).out.find("They agree.\n") !=
        std::string::npos);
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
