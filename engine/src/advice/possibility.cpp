#include "advice/possibility.h"

#include "advice/ways.h"

namespace engine {

Possibility possibility(const Outcomes& outcomes, std::uint32_t outcome, const Consultation& consultation) {
  constexpr std::size_t most_ways = 4;
  const NextStep& step = outcomes.all[outcome].step;
  Possibility possible{step.action, step.interval, step.due, step.grounds.front().rule, {}};
  const Ways ways =
      simplest_ways(outcomes.search, consultation.variables(), consultation.symmetry(), outcome, most_ways);
  for (const Box& box : ways.boxes) {
    std::string text = text_of(box, consultation.variables(), consultation.facts());
    if (!text.empty()) possible.when.push_back(text + mirrored_text(box, consultation.symmetry()));
  }
  if (ways.more) possible.when.emplace_back(other_ways);
  return possible;
}

}  // namespace engine
