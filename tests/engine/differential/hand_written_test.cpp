// The engine with rulesets/uk-2020 against the same rules written straight in C++, on every worked case.
// Outside check. Source: hand_written_uk_2020/, by another hand than the ruleset.

#include <catch2/catch.hpp>
#include <set>

#include "engine/differential/hand_written_uk_2020.h"
#include "engine/differential/record_generator.h"
#include "engine/differential/worked_cases.h"

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
  Adviser adviser(testing::uk_2020());
  int cases = 0;
  testing::for_each_worked_case([&](const Record& record, const std::string& id) {
    ++cases;
    INFO(id);
    CHECK(text_of(testing::hand_written_uk_2020(record)) ==
          text_of(plan_of(adviser.advise(record, {2026, 3, 10}))));
  });
  CHECK(cases > 100);
}

TEST_CASE(
    "the engine gives a record that was made at random the action, interval and row of rules written by hand",
    "[differential]") {
  constexpr int records = 10'000;
  Adviser adviser(testing::uk_2020());
  testing::RecordGenerator generator(20260313);
  std::set<std::string> rows;
  int failures = 0;
  for (int i = 0; i < records && failures < 20; ++i) {
    const Record record = generator.record();
    const Advice advice = adviser.advise(record, {2026, 3, 10});
    const std::string ours = text_of(plan_of(advice)),
                      by_hand = text_of(testing::hand_written_uk_2020(record));
    if (!advice.reasons.empty()) rows.insert(advice.reasons.front().rule);
    if (ours == by_hand) continue;
    ++failures;
    FAIL_CHECK("record " << i << ": engine: " << ours
                         << (advice.errors.empty() ? "" : ", " + advice.errors.front().message)
                         << "; by hand: " << by_hand);
  }
  CHECK(rows.size() >= 25);  // a generator that reaches few rows would show little
}
