#include "advice/decisiveness.h"

#include <algorithm>
#include <vector>

namespace engine {

namespace {

/// Which candidates of `variable` lie in `box` or in a mirror image of it.
CandidateSet candidates_in(const Box& box, std::uint32_t variable, const CandidateSet& full,
                           const Symmetry& symmetry) {
  const auto in = [&](std::uint32_t v) {
    const CandidateSet* set = set_of(box, v);
    return set != nullptr ? *set : full;
  };
  const Symmetry::Where at = symmetry.find(variable);
  if (at.group == nullptr) return in(variable);
  CandidateSet any;
  for (const Symmetry::Block& lesion : *at.group) any = any | in(lesion[at.index]);
  return any;
}

AnswersLeft left_by(const std::vector<CandidateSet>& allowed_by_answer, std::uint32_t candidates) {
  AnswersLeft left;
  std::uint32_t sum = 0;
  for (std::uint32_t candidate = 0; candidate < candidates; ++candidate) {
    const auto answers = static_cast<std::uint32_t>(
        std::count_if(allowed_by_answer.begin(), allowed_by_answer.end(),
                      [&](const CandidateSet& allowed) { return allowed.has(candidate); }));
    left.at_worst = std::max(left.at_worst, answers);
    sum += answers;
  }
  left.in_thousandths = candidates == 0 ? 0 : sum * 1000 / candidates;
  return left;
}

}  // namespace

std::vector<AnswersLeft> answers_left(const Search& search, const OpenVariables& variables,
                                      const Symmetry& symmetry,
                                      const std::vector<std::uint32_t>& outcome_class) {
  std::vector<AnswersLeft> left(variables.variables.size());
  if (search.exhausted) return left;
  for (std::uint32_t variable = 0; variable < left.size(); ++variable) {
    const std::uint32_t candidates = variables.variables[variable].candidates;
    const CandidateSet full = CandidateSet::first(candidates);
    // By class of outcomes; at the end what is not known.
    std::vector<CandidateSet> allowed(outcome_class.size() + 1);
    for (const Leaf& leaf : search.leaves) {
      CandidateSet& of_answer =
          leaf.outcome == Leaf::unknown ? allowed.back() : allowed[outcome_class[leaf.outcome]];
      of_answer = of_answer | candidates_in(leaf.box, variable, full, symmetry);
    }
    left[variable] = left_by(allowed, candidates);
  }
  return left;
}

}  // namespace engine
