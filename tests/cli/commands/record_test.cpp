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
using support::tubular_adenoma;

namespace {

std::string adenoma(const std::string& number, const std::string& exam) {
  return a_record(number, exam, "2026-03-10", {a_lesion("L1", tubular_adenoma())}).dump() + "\n";
}
std::string awaited(const std::string& number, const std::string& exam) {
  return a_record(number, exam, "2026-03-10", {a_lesion("L1", nullptr)}).dump() + "\n";
}

std::size_t entries(const TemporaryUnit& unit) {
  const Finished finished = unit.run({"audit", "verify", "--json"});
  return std::stoul(json::parse(finished.out)["checkpoint"].get<std::string>());
}

}  // namespace

TEST_CASE("files are recorded, each with a line that sums it up", "[cli]") {
  const TemporaryUnit unit;
  const std::string a = unit.file("a.jsonl", adenoma("H1", "E1") + awaited("H2", "E2"));
  const std::string b = unit.file("b.jsonl", adenoma("H3", "E3"));
  const Finished finished = unit.receive({"record", a, b});
  CHECK(finished.code == 0);
  CHECK(finished.out == a + ": 2 recorded\n" + b + ": 1 recorded\n");
  CHECK(finished.err == "a new ledger was begun: `" + unit.ledger + "`\n");
}

TEST_CASE("what is known already changes nothing", "[cli]") {
  const TemporaryUnit unit;
  const std::string a = unit.file("a.jsonl", adenoma("H1", "E1") + awaited("H2", "E2"));
  unit.receive({"record", a});
  const std::size_t before = entries(unit);
  const Finished again = unit.receive({"record", a});
  CHECK(again.out == a + ": 2 already recorded\n");
  CHECK(again.code == 0);
  CHECK(entries(unit) == before);
}

TEST_CASE("a refused record stops no other, and asks for a person once", "[cli]") {
  const TemporaryUnit unit;
  const std::string a =
      unit.file("a.jsonl", adenoma("H1", "E1") + "{\"patient\":{}}\n" + adenoma("H2", "E2"));
  const Finished finished = unit.receive({"record", a});
  CHECK(finished.code == 1);
  CHECK(finished.out == a + ": 2 recorded, 1 refused\n");
  CHECK(finished.err.find("error: ") != std::string::npos);
  const std::size_t before = entries(unit);
  CHECK(unit.receive({"record", a}).code == 1);
  CHECK(entries(unit) == before);

  const json inputs = json::parse(unit.run({"inputs", "--format", "json"}).out);
  REQUIRE(inputs["count"] == 1);
  CHECK(inputs["rows"][0]["line"] == 2);
  const std::string entry = std::to_string(inputs["rows"][0]["entry"].get<int>());
  CHECK(unit.run_today({"settle", entry, "--reason", "sent again by the ward"}).code == 0);
  CHECK(json::parse(unit.run({"inputs", "--format", "json"}).out)["count"] == 0);
}

TEST_CASE("a file that cannot be read does not hold up the others", "[cli]") {
  const TemporaryUnit unit;
  const std::string a = unit.file("a.jsonl", adenoma("H1", "E1"));
  const Finished finished = unit.receive({"record", "/nowhere.json", a});
  CHECK(finished.code == 3);
  CHECK(finished.out == a + ": 1 recorded\n");
  CHECK(finished.err.find("`/nowhere.json` cannot be read") != std::string::npos);
}

TEST_CASE("with --json there is a line for each record, with its answer", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished = unit.receive({"record", "-", "--json"}, adenoma("H1", "E1") + "[]\n");
  std::istringstream lines(finished.out);
  std::string first, second;
  std::getline(lines, first);
  std::getline(lines, second);
  CHECK(json::parse(first)["received"] == "recorded");
  CHECK(json::parse(first)["answer"]["action"] == "surveillance colonoscopy");
  CHECK(json::parse(second)["received"] == "refused");
  CHECK_FALSE(json::parse(second)["errors"].empty());
}

TEST_CASE("a result gives the advice again", "[cli]") {
  const TemporaryUnit unit;
  unit.receive({"record", unit.file("a.jsonl", awaited("H1", "E1"))});
  CHECK(json::parse(unit.run_today({"awaiting", "--format", "json"}).out)["count"] == 1);
  const std::string result = unit.file("r.json", support::a_result("E1", "L1", tubular_adenoma()).dump());
  CHECK(unit.receive({"result", result}).out == result + ": 1 histology entered\n");
  CHECK(unit.receive({"result", result}).out == result + ": 1 already entered\n");
  CHECK(json::parse(unit.run_today({"awaiting", "--format", "json"}).out)["count"] == 0);
  CHECK(json::parse(unit.run_today({"unplanned", "--format", "json"}).out)["count"] == 1);
}

TEST_CASE("a result for no known examination asks for a person", "[cli]") {
  const TemporaryUnit unit;
  unit.receive({"record", unit.file("a.jsonl", awaited("H1", "E1"))});
  const Finished finished =
      unit.receive({"result", unit.file("r.json", support::a_result("E9", "L1", tubular_adenoma()).dump())});
  CHECK(finished.code == 1);
  CHECK(finished.err.find("`E9`") != std::string::npos);
}

TEST_CASE("the rulesets that answered before answer again", "[cli]") {
  const TemporaryUnit unit;
  unit.receive({"record", unit.file("a.jsonl", adenoma("H1", "E1"))});
  const std::string b = unit.file("b.jsonl", adenoma("H2", "E2"));
  const Finished finished = unit.run_today({"record", b, "--rulesets", unit.rulesets, "--json"});
  CHECK(finished.code == 0);
  CHECK(json::parse(finished.out)["answer"]["ruleset"]["id"] == "test-a");
}

TEST_CASE("which guideline the unit follows is never guessed", "[cli]") {
  const TemporaryUnit unit;
  const Finished finished =
      unit.run_today({"record", unit.file("a.jsonl", adenoma("H1", "E1")), "--rulesets", unit.rulesets});
  CHECK(finished.code == 2);
  CHECK(finished.err.find("which guideline the unit follows is not said") != std::string::npos);
}

TEST_CASE(
    "an unverified ruleset is refused by the ledger's commands, or every answer says so and can be replayed",
    "[cli]") {
  const TemporaryUnit unit;
  std::filesystem::remove(unit.rulesets + "/MANIFEST");
  const std::string file = unit.file(
      "a.json",
      support::a_record("H1", "E1", "2026-03-10", {support::a_lesion("L1", support::tubular_adenoma())})
          .dump());
  const support::Finished refused = unit.receive({"record", file});
  CHECK(refused.code == 3);
  CHECK(refused.err.find("the ruleset `test-a` is not verified") != std::string::npos);

  const support::Finished recorded = unit.receive({"record", "--unverified", file});
  INFO(recorded.err);
  CHECK(recorded.code == 0);
  CHECK(support::read_text(unit.ledger).find("`test-a` was used unverified") != std::string::npos);
  const support::Finished replayed = unit.run({"audit", "replay"});
  INFO(replayed.out << replayed.err);
  CHECK(replayed.code == 0);
}
