#include "ledger/choice.h"

#include <algorithm>
#include <string>
#include <tuple>

#include "engine/lesion_names.h"

namespace ledger {

namespace {

using engine::Action;
using engine::Advice;
using engine::AdviceState;
using engine::Date;

bool sets_a_date(Action action) {
  return action == Action::surveillance_colonoscopy || action == Action::site_check ||
         action == Action::repeat_examination;
}

/// Smaller is sooner.
using Urgency = std::tuple<int, Date, Date>;

Urgency urgency_of(Action action, const std::optional<engine::Window>& due) {
  if (sets_a_date(action)) return due ? Urgency{1, due->from, due->to} : Urgency{0, {}, {}};
  switch (action) {
    case Action::refer:
      return {2, {}, {}};
    case Action::individualise:
      return {3, {}, {}};
    case Action::return_to_screening:
      return {4, {}, {}};
    default:
      return {5, {}, {}};
  }
}

Urgency urgency_of(const Advice& answer) {
  return urgency_of(answer.action.value_or(Action::no_surveillance), answer.due);
}

/// What is not settled, and names nothing that could come of it, could be anything.
bool could_come_before(const Advice& open, const Advice& settled) {
  if (open.state == AdviceState::refused || open.possible.empty()) return true;
  return std::any_of(open.possible.begin(), open.possible.end(), [&](const engine::Possibility& outcome) {
    return urgency_of(outcome.action, outcome.due) < urgency_of(settled);
  });
}

/// Smaller blocks first.
int rank_of(AdviceState state) {
  switch (state) {
    case AdviceState::refused:
      return 0;
    case AdviceState::depends:
      return 1;
    case AdviceState::awaiting_pathology:
      return 2;
    default:
      return 3;
  }
}

bool is_open(const Advice& answer) {
  return answer.state != AdviceState::settled && answer.state != AdviceState::outside;
}

std::size_t chosen_of(const std::vector<Advice>& answers) {
  std::optional<std::size_t> settled, open;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const Advice& answer = answers[i];
    if (answer.state == AdviceState::settled) {
      if (!settled || urgency_of(answer) < urgency_of(answers[*settled])) settled = i;
    }
  }
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (!is_open(answers[i])) continue;
    if (settled && !could_come_before(answers[i], answers[*settled])) continue;
    if (!open || rank_of(answers[i].state) < rank_of(answers[*open].state)) open = i;
  }
  return open ? *open : settled.value_or(0);
}

std::string settled_reason(const Advice& answer) {
  const Action action = answer.action.value_or(Action::individualise);
  if (action == Action::individualise) return "to be decided: individualise";
  if (sets_a_date(action) && !answer.due)
    return "to be decided: " + std::string(engine::text_of(action)) +
           ", and when: the guideline sets no date";
  std::string reason = "to be signed: " + std::string(engine::text_of(action));
  if (answer.due) reason += ", due " + engine::text_of(answer.due->from);
  return reason;
}

std::string reason_for(const Advice& answer) {
  switch (answer.state) {
    case AdviceState::settled:
      return settled_reason(answer);
    case AdviceState::awaiting_pathology:
      return "awaiting pathology";
    case AdviceState::depends:
      if (answer.questions.empty()) return "depends on a doubtful fact";
      return "depends: " + engine::with_lesion_names(answer.questions.front().fact, answer.lesions) + ": " +
             answer.questions.front().why;
    case AdviceState::outside:
      if (answer.ask_instead.empty()) return "outside every ruleset in force";
      return "outside: ask " + answer.ask_instead;
    default:
      return "refused: " +
             (answer.errors.empty() ? "the ruleset met an error" : answer.errors.front().message);
  }
}

void take_earlier(std::optional<Date>& earliest, const std::optional<engine::Window>& due) {
  if (due && (!earliest || due->from < *earliest)) earliest = due->from;
}

}  // namespace

Choice choose(const std::vector<Advice>& answers) {
  Choice choice;
  choice.chosen = chosen_of(answers);
  choice.reason = reason_for(answers[choice.chosen]);
  for (const Advice& answer : answers) {
    if (answer.state == AdviceState::outside) continue;
    take_earlier(choice.earliest, answer.due);
    if (answer.action == Action::site_check) take_earlier(choice.earliest_site_check, answer.due);
    for (const engine::Possibility& outcome : answer.possible) {
      take_earlier(choice.earliest, outcome.due);
      if (outcome.action == Action::site_check) take_earlier(choice.earliest_site_check, outcome.due);
    }
  }
  return choice;
}

}  // namespace ledger
