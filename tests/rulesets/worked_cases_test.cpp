// Every ruleset against the worked cases of its guideline: in its own folder, and beside the project.
// Outside check. Source: each case names its own (`source`, `where`, `evidence`).

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "engine/advice.h"
#include "support/places.h"
#include "support/shipped_rulesets.h"

namespace fs = std::filesystem;
using namespace engine;
using nlohmann::json;

namespace {

const fs::path shared_cases = fs::path(support::source()) / ".." / "shared" / "guidelines" / "cases";

// `no surveillance` and `return to screening` count as equal under 75 (the vocabulary of the cases).
bool same_action(const std::string& a, const std::string& b) {
  const auto stops = [](const std::string& x) { return x == "no surveillance" || x == "return to screening"; };
  return a == b || (stops(a) && stops(b));
}

std::string answer_of(const Advice& advice) {
  if (!advice.action) return std::string(text_of(advice.state));
  std::string text(text_of(*advice.action));
  if (advice.interval) text += " " + text_of(advice.interval->from) + " " + text_of(advice.interval->to);
  return text;
}

bool agrees(const json& expected, const Advice& advice) {
  if (!advice.action || !same_action(expected["action"], std::string(text_of(*advice.action)))) return false;
  if (expected["interval"].is_null()) return !advice.interval.has_value();
  if (!advice.interval) return false;
  const auto months = [](const std::string& text) {  // `P0D` is as good as `P0M`
    const auto duration = *parse_duration(text);
    const auto* whole = std::get_if<Months>(&duration);
    return whole ? *whole : Months{0};
  };
  return advice.interval->from == months(expected["interval"]["from"]) &&
         advice.interval->to == months(expected["interval"]["to"]);
}

// Runs the cases of `file`; adds the rows that they reach.
int run_cases(const std::shared_ptr<const Ruleset>& ruleset, const fs::path& file, std::set<std::string>& reached) {
  Adviser adviser(ruleset);
  std::ifstream lines(file);
  std::string line;
  int count = 0;
  while (std::getline(lines, line)) {
    if (line.empty()) continue;
    ++count;
    const json c = json::parse(line);
    INFO(file.filename().string() << " " << c["id"] << ": " << c["expect"]["why"]);
    const Result<Record> record = read_record(line, "case");
    REQUIRE(record);
    const Advice advice = adviser.advise(*record, {2026, 3, 10});
    INFO("expected " << c["expect"]["action"] << " " << c["expect"]["interval"] << ", got " << answer_of(advice));
    CHECK(agrees(c["expect"], advice));
    CHECK_FALSE(c["source"].get<std::string>().empty());
    reached.insert(advice.fired.begin(), advice.fired.end());
    for (const Reason& reason : advice.reasons) reached.insert(reason.rule);
  }
  return count;
}

}  // namespace

TEST_CASE("every ruleset answers its worked cases, and they reach every row", "[rulesets]") {
  const std::vector<std::string> ids = support::shipped_ruleset_ids();
  for (const std::string& id : ids) {
    INFO(id);
    const auto ruleset = support::load_shipped(id);
    REQUIRE(ruleset);
    CHECK((*ruleset)->about.id == id);
    std::set<std::string> reached;
    CHECK(run_cases(*ruleset, support::rulesets_folder / id / "guideline.cases.jsonl", reached) > 0);
    for (const RulesetRow& row : (*ruleset)->rows) {
      INFO("row " << row.id << ": " << row.text);
      CHECK(reached.count(row.id) == 1);
    }
  }
  CHECK(!ids.empty());
}

TEST_CASE("every ruleset answers the cases beside the project", "[rulesets]") {
  if (!fs::exists(shared_cases)) {
    WARN("skipped: the check cases are not beside the project (../shared/guidelines/cases)");
    return;
  }
  for (const std::string& id : support::shipped_ruleset_ids()) {
    const fs::path file = shared_cases / (id + ".cases.jsonl");
    if (!fs::exists(file)) continue;
    const auto ruleset = support::load_shipped(id);
    REQUIRE(ruleset);
    std::set<std::string> reached;
    CHECK(run_cases(*ruleset, file, reached) > 0);
  }
}
