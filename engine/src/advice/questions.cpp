#include "advice/questions.h"

#include <algorithm>

#include "advice/decisiveness.h"
#include "advice/words.h"

namespace engine {

namespace {

using Why = OpenFact::Why;

/// Parts of histology that are missing together are asked for together.
std::string asked_path(const OpenFact& fact) {
  constexpr std::string_view part = ".histology.";
  const std::size_t at = fact.path.rfind(part);
  const bool whole = fact.why == Why::awaited || fact.why == Why::lost;
  return whole && at != std::string::npos ? fact.path.substr(0, at + part.size() - 1) : fact.path;
}

std::string_view state_of(Why why) {
  switch (why) {
    case Why::awaited:
      return "the report is awaited";
    case Why::lost:
      return "not retrieved or not removed, so it will not be reported";
    case Why::bounded:
      return "known only within bounds";
    case Why::not_stated:
    case Why::assumed:
      break;
  }
  return "not stated";
}

/// What the answer is where this fact alone makes the difference.
std::string between(const Outcomes& outcomes) {
  std::vector<std::string> texts;
  for (std::uint32_t i = 0; i < outcomes.all.size(); ++i) {
    const NextStep& step = outcomes.all[i].step;
    const std::string text = in_words(step.action, step.interval);
    if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
  }
  constexpr std::size_t most = 4;
  if (texts.size() < 2) return "it decides";
  if (texts.size() > most) return "it decides between " + std::to_string(texts.size()) + " next steps";
  return "it decides between " + listed(texts, " and ");
}

std::vector<std::uint8_t> facts_that_matter(const Consultation& consultation, const Outcomes& outcomes,
                                            bool all_awaited) {
  const OpenVariables& variables = consultation.variables();
  const std::span<const OpenFact> facts = consultation.facts();
  const bool complete = !outcomes.search.exhausted;
  const auto matters = variables_that_matter(outcomes.search, variables.variables.size(),
                                             consultation.symmetry(), outcomes.classes);
  std::vector<std::uint8_t> asked(facts.size());
  for (std::uint32_t id = 0; id < facts.size(); ++id) {
    if (facts[id].why == Why::assumed) continue;
    const std::uint32_t variable = variables.of_fact[id].variable;
    const bool read = consultation.touched()[id] != 0;
    const bool decides = variable == OpenVariables::none || !complete || matters[variable] != 0;
    asked[id] = (read && decides) || (all_awaited && facts[id].why == Why::awaited) ? 1 : 0;
  }
  return asked;
}

/// The ids of what is asked for. What the ruleset cannot answer without comes first; of equals the record's
/// order.
std::vector<std::uint32_t> most_decisive_first(const Consultation& consultation, const Outcomes& outcomes,
                                               const std::vector<std::uint8_t>& asked) {
  const OpenVariables& variables = consultation.variables();
  const auto left = answers_left(outcomes.search, variables, consultation.symmetry(), outcomes.classes);
  std::vector<std::uint32_t> ids;
  for (std::uint32_t id = 0; id < asked.size(); ++id) {
    if (asked[id] != 0) ids.push_back(id);
  }
  const auto left_by = [&](std::uint32_t id) {
    const std::uint32_t variable = variables.of_fact[id].variable;
    return variable == OpenVariables::none ? AnswersLeft{} : left[variable];
  };
  std::stable_sort(ids.begin(), ids.end(),
                   [&](std::uint32_t a, std::uint32_t b) { return left_by(a) < left_by(b); });
  return ids;
}

Question question_for(const OpenFact& fact, bool can_be_worked_through, const Outcomes& outcomes) {
  std::string why(state_of(fact.why));
  if (!can_be_worked_through) {
    why += ": the ruleset cannot answer without it";
  } else if (outcomes.search.exhausted || outcomes.has_unknown()) {
    why += ": it may decide";
  } else {
    why += ": " + between(outcomes);
  }
  return {asked_path(fact), std::move(why)};
}

}  // namespace

FactsToAsk facts_to_ask(const Consultation& consultation, const Outcomes& outcomes, bool all_awaited) {
  const std::span<const OpenFact> facts = consultation.facts();
  const auto asked =
      most_decisive_first(consultation, outcomes, facts_that_matter(consultation, outcomes, all_awaited));
  FactsToAsk result;
  const auto add = [&](std::uint32_t id) {
    const bool can_be_worked_through = consultation.variables().of_fact[id].variable != OpenVariables::none;
    Question question = question_for(facts[id], can_be_worked_through, outcomes);
    const auto is_same = [&](const Question& other) { return other.fact == question.fact; };
    if (std::any_of(result.questions.begin(), result.questions.end(), is_same)) return;
    if (facts[id].why == Why::awaited) ++result.awaited_lesions;
    result.questions.push_back(std::move(question));
  };
  for (const bool awaited : {true, false}) {
    for (const std::uint32_t id : asked) {
      if ((facts[id].why == Why::awaited) == awaited) add(id);
    }
  }
  result.awaited_decides = result.awaited_lesions > 0;
  return result;
}

}  // namespace engine
