// The engine with rulesets/uk-2020 against the same rules written straight in C++, on every worked case.
// Outside check. Source: hand_written_uk_2020.cpp, by another hand than the ruleset.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "engine/differential/hand_written_uk_2020.h"
#include "support/shipped_rulesets.h"

using namespace engine;
using testing::Plan;

namespace {

std::string text_of(const std::optional<Plan>& plan) {
  if (!plan) return "no plan";
  std::string text(engine::text_of(plan->action));
  if (plan->interval) text += " " + text_of(plan->interval->from) + " " + text_of(plan->interval->to);
  return text + " by " + std::string(plan->rule);
}

std::optional<Plan> plan_of(const Advice& advice) {
  if (!advice.action || advice.reasons.empty()) return std::nullopt;
  return Plan{*advice.action, advice.interval, advice.reasons.front().rule};
}

}  // namespace

TEST_CASE(
    "the engine gives every worked case of uk-2020 the action, interval and row of rules written by hand",
    "[differential]") {
  const auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  Adviser adviser(*ruleset);
  std::ifstream lines(support::rulesets_folder / "uk-2020" / "guideline.cases.jsonl");
  int cases = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.empty()) continue;
    ++cases;
    const Result<Record> record = read_record(line, "case");
    REQUIRE(record);
    const Advice advice = adviser.advise(*record, {2026, 3, 10});
    INFO(caller_id(line));
    CHECK(text_of(testing::hand_written_uk_2020(*record)) == text_of(plan_of(advice)));
  }
  CHECK(cases > 100);
}
