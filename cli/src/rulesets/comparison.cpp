#include "rulesets/comparison.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

#include "engine/representative.h"

namespace cli {

namespace {

using engine::Action;
using engine::Advice;
using engine::AdviceState;

Outcome outcome_of(const Advice& advice) {
  Outcome outcome;
  outcome.interval = advice.interval;
  if (!advice.reasons.empty()) outcome.rule = advice.reasons.front().rule;
  if (advice.state == AdviceState::outside && !advice.ask_instead.empty()) {
    outcome.answer = "outside: ask " + advice.ask_instead;
  } else if (advice.state == AdviceState::settled && advice.action) {
    outcome.answer = engine::text_of(*advice.action);
  } else {
    outcome.answer = engine::text_of(advice.state);
  }
  return outcome;
}

std::pair<std::int64_t, std::int64_t> months_of(const Outcome& outcome) {
  return outcome.interval ? std::pair(outcome.interval->from.count, outcome.interval->to.count)
                          : std::pair<std::int64_t, std::int64_t>(-1, -1);
}

bool differ(const Outcome& a, const Outcome& b) {
  return a.answer != b.answer || months_of(a) != months_of(b);
}

bool ends_surveillance(const Outcome& outcome) {
  const auto action = engine::action_of(outcome.answer);
  return !outcome.interval && (action == Action::no_surveillance || action == Action::return_to_screening);
}

bool asks_for_examination(const Outcome& outcome) {
  switch (engine::action_of(outcome.answer).value_or(Action::refer)) {
    case Action::surveillance_colonoscopy:
    case Action::site_check:
    case Action::repeat_examination:
      return true;
    case Action::individualise:
      return outcome.interval.has_value();
    default:
      return false;
  }
}

Direction direction_of(const Outcome& first, const Outcome& second) {
  if (first.interval && second.interval && months_of(first) != months_of(second))
    return months_of(second) < months_of(first) ? Direction::sooner : Direction::later;
  if (asks_for_examination(first) && ends_surveillance(second)) return Direction::stops;
  if (ends_surveillance(first) && asks_for_examination(second)) return Direction::starts;
  return Direction::other;
}

using Key = std::tuple<std::string, std::pair<std::int64_t, std::int64_t>, std::string, std::string,
                       std::pair<std::int64_t, std::int64_t>, std::string>;

struct Group {
  Difference difference;
  engine::Complexity complexity;
};

class Comparer {
 public:
  Comparer(const std::shared_ptr<const engine::Ruleset>& first,
           const std::shared_ptr<const engine::Ruleset>& second)
      : first_(first), second_(second) {}

  void take(const engine::RepresentativeRecord& made) {
    const engine::Date today = engine::representative_day();
    const Outcome a = outcome_of(first_.advise(made.record, today)),
                  b = outcome_of(second_.advise(made.record, today));
    ++comparison_.records;
    if (!differ(a, b)) return;
    ++comparison_.different;
    Group& group = groups_[Key(a.answer, months_of(a), a.rule, b.answer, months_of(b), b.rule)];
    if (++group.difference.records > 1 && group.complexity <= made.complexity) return;
    group.complexity = made.complexity;
    group.difference.first = a;
    group.difference.second = b;
    group.difference.example = engine::in_plain_words(made.record);
  }

  Comparison result() {
    for (auto& [key, group] : groups_) {
      Difference& difference = group.difference;
      difference.direction = direction_of(difference.first, difference.second);
      if (difference.first.interval && difference.second.interval)
        difference.months = difference.second.interval->from.count - difference.first.interval->from.count;
      comparison_.differences.push_back(std::move(difference));
    }
    const auto order = [](const Difference& a, const Difference& b) {
      return std::tuple(a.direction, -std::abs(a.months), a.first.rule, a.second.rule) <
             std::tuple(b.direction, -std::abs(b.months), b.first.rule, b.second.rule);
    };
    std::stable_sort(comparison_.differences.begin(), comparison_.differences.end(), order);
    return std::move(comparison_);
  }

 private:
  engine::Adviser first_, second_;
  std::map<Key, Group> groups_;
  Comparison comparison_;
};

}  // namespace

std::string_view text_of(Direction direction) {
  constexpr std::string_view words[] = {"sooner", "later", "stops", "starts", "other"};
  return words[static_cast<std::size_t>(direction)];
}

Comparison compare(const std::shared_ptr<const engine::Ruleset>& first,
                   const std::shared_ptr<const engine::Ruleset>& second) {
  std::vector<engine::Decimal> numbers;
  for (const auto& ruleset : {first, second}) {
    const auto of_one = engine::numeric_literals(*ruleset->model);
    numbers.insert(numbers.end(), of_one.begin(), of_one.end());
  }
  Comparer comparer(first, second);
  engine::each_representative_record(numbers,
                                     [&](const engine::RepresentativeRecord& made) { comparer.take(made); });
  return comparer.result();
}

}  // namespace cli
