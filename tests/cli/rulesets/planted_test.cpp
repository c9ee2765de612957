// Faults planted in small rulesets (tests/rulesets/planted) are found, each with a record that shows it and
// that `advise` answers as the fault says.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/places.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::run_program;

namespace {

struct Planted {
  support::TemporaryUnit unit;
  std::string id;

  explicit Planted(const std::string& kind) : id("planted-" + kind) {
    const std::string from = support::source("tests/rulesets/planted/") + kind + ".dmn";
    support::write_file(unit.rulesets + "/" + id + "/ruleset.dmn", support::read_text(from));
    support::write_file(unit.rulesets + "/" + id + "/SOURCES.md", "# " + id + "\n");
    support::write_file(
        unit.rulesets + "/" + id + "/guideline.cases.jsonl",
        R"({"id":"c1","given":{"exam":{"date":"2026-03-10","reached":"caecum","preparation":{"graded":"good"},"lesions":[]}},)"
        R"("expect":{"action":"return to screening","interval":null,"why":"no polyps"}})"
        "\n");
    unit.write_manifest();
  }

  Finished check() const { return run_program({"rulesets", "check", id, "--rulesets", unit.rulesets}); }

  json advise(const std::string& record) const {
    const Finished finished = run_program({"advise", "-", "--ruleset", id, "--rulesets", unit.rulesets,
                                           "--json", "--today", "2026-03-20", "--unverified"},
                                          record + "\n");
    return json::parse(finished.out);
  }
};

/// The records that stand in a message, in order.
std::vector<std::string> records_in(const std::string& text) {
  std::vector<std::string> records;
  for (std::size_t at = text.find("record {"); at != std::string::npos; at = text.find("record {", at + 1)) {
    const std::size_t start = at + 7;
    int depth = 0;
    for (std::size_t i = start; i < text.size(); ++i) {
      depth += text[i] == '{' ? 1 : text[i] == '}' ? -1 : 0;
      if (depth == 0) {
        records.push_back(text.substr(start, i - start + 1));
        break;
      }
    }
  }
  return records;
}

}  // namespace

TEST_CASE("a ruleset in which nothing is planted has no fault", "[cli][proof]") {
  const Planted planted("sound");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 0);
  CHECK(finished.out.find("2 tables without gap or overlap") != std::string::npos);
}

TEST_CASE("nothing is advised with a ruleset in which a hole is planted", "[cli][proof]") {
  const std::string record = R"({"exam":{"date":"2026-03-10","lesions":[]}})";
  for (const char* kind : {"gap", "overlap", "masked", "dead"}) {
    INFO(kind);
    const Planted planted(kind);
    const Finished written =
        run_program({"rulesets", "verify", "--write", "--rulesets", planted.unit.rulesets});
    CHECK(written.code == 1);
    CHECK(written.out.find(planted.id + ": left out of the manifest\n") != std::string::npos);
    CHECK(written.err.find("table `Class`") != std::string::npos);
    const Finished advised =
        run_program({"advise", "-", "--ruleset", planted.id, "--rulesets", planted.unit.rulesets}, record);
    CHECK(advised.code == 3);
    CHECK(advised.out.empty());
    CHECK(planted.advise(record)["cautions"].dump().find("manifest") != std::string::npos);
  }
  const Planted sound("sound");
  CHECK(run_program({"advise", "-", "--ruleset", sound.id, "--rulesets", sound.unit.rulesets}, record).code ==
        0);
}

TEST_CASE("a planted gap is found, and its record gets no answer", "[cli][proof]") {
  const Planted planted("gap");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 1);
  CHECK(
      finished.err.find("table `Class`: no rule of the table matches when `Polyps` is 1; `Largest` is 10") !=
      std::string::npos);
  const auto records = records_in(finished.err);
  REQUIRE_FALSE(records.empty());
  CHECK(planted.advise(records.front())["state"] == "refused");
}

TEST_CASE("a planted overlap is found, and its record gets no answer", "[cli][proof]") {
  const Planted planted("overlap");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find("table `Class`: rules 2 (`P-2`) and 4 (`P-4`) match together when `Polyps` is 3; "
                          "`Largest` is less than 10") != std::string::npos);
  const auto records = records_in(finished.err);
  REQUIRE_FALSE(records.empty());
  CHECK(planted.advise(records.front())["state"] == "refused");
}

TEST_CASE("a planted rule that never answers is found, with a record that a rule before it answers",
          "[cli][proof]") {
  const Planted planted("masked");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find(
            "table `Class`: rule 4 (`P-5`) never answers: a rule before it does wherever it matches") !=
        std::string::npos);
  const auto records = records_in(finished.err);
  REQUIRE_FALSE(records.empty());
  CHECK(planted.advise(records.front())["reasons"][0]["rule"] != "P-5");
}

TEST_CASE("a planted rule that matches nothing is found", "[cli][proof]") {
  const Planted planted("dead");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find("table `Class`: rule 5 (`P-5`) matches no values of its inputs") !=
        std::string::npos);
}

TEST_CASE("a planted row that makes more wait longer is found, with two records that show it",
          "[cli][proof]") {
  const Planted planted("not-monotone");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find(
            "surveillance colonoscopy in 5 years (P-2), but surveillance colonoscopy in 10 years (P-4)") !=
        std::string::npos);
  const auto records = records_in(finished.err);
  REQUIRE(records.size() >= 2);
  const json better = planted.advise(records[0]), worse = planted.advise(records[1]);
  CHECK(better["due"]["from"] < worse["due"]["from"]);
}

TEST_CASE("a law that the guideline itself breaks is excused by naming both rows in SOURCES.md",
          "[cli][proof]") {
  const Planted planted("not-monotone");
  support::write_file(planted.unit.rulesets + "/" + planted.id + "/SOURCES.md",
                      "# Planted\n\n## Where more is not sooner\n\nP-2 then P-4: the guideline says so.\nP-3 "
                      "then P-4: it does.\n");
  const Finished finished = planted.check();
  INFO(finished.out << finished.err);
  CHECK(finished.code == 0);
  CHECK(finished.out.find("broken where the guideline says so") != std::string::npos);
}
