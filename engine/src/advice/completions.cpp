#include "advice/completions.h"

#include <algorithm>
#include <deque>

namespace engine {

namespace {

/// After the budget is known not to suffice, this many more runs gather outcomes to show.
constexpr std::uint32_t last_runs = 500;

/// The completions in `box` that this run does not answer for, as disjoint boxes; `box` becomes the rest.
void split(Box& box, std::span<const TakenFacts::Step> steps, std::deque<Box>& pending) {
  for (const TakenFacts::Step& step : steps) {
    pending.push_back(box);
    narrow(pending.back(), step.variable, step.before - step.after);
    narrow(box, step.variable, step.after);
  }
}

}  // namespace

Search search(TakenFacts& taken, std::uint32_t budget,
              const std::function<std::optional<std::uint32_t>()>& run) {
  Search result;
  std::deque<Box> pending(1);
  while (!pending.empty() && budget > 0) {
    Box box = std::move(pending.front());
    pending.pop_front();
    --budget;
    taken.start(box);
    const auto outcome = run();
    if (!outcome) {
      result.stopped = true;
      return result;
    }
    split(box, taken.steps(), pending);
    result.leaves.push_back({std::move(box), *outcome});
    if (pending.size() > budget && !result.exhausted) {  // each needs a run at least
      result.exhausted = true;
      budget = std::min(budget, last_runs);
    }
  }
  result.exhausted = !pending.empty();
  return result;
}

std::optional<std::uint32_t> only_difference(const Box& a, const Box& b) {
  std::optional<std::uint32_t> found;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    if (a[i].first < b[j].first) {
      ++i;
    } else if (b[j].first < a[i].first) {
      ++j;
    } else {
      if (!a[i].second.meets(b[j].second)) {
        if (found) return std::nullopt;
        found = a[i].first;
      }
      ++i;
      ++j;
    }
  }
  return found;
}

// Two completions that differ in one variable only and lead to different outcomes lie in two leaves which
// exclude each other in that variable alone, and two such leaves always hold two such completions.
std::vector<std::uint8_t> variables_that_matter(const Search& search, std::size_t variables,
                                                const std::vector<std::uint32_t>& outcome_class) {
  constexpr std::uint64_t most_pairs = 3'000'000;
  std::vector<std::uint8_t> narrowed(variables), matters(variables);
  for (const Leaf& leaf : search.leaves) {
    for (const auto& [variable, set] : leaf.box) narrowed[variable] = 1;
  }
  const auto told_apart = [&](const Leaf& leaf) {
    return leaf.outcome == Leaf::unknown ? Leaf::unknown : outcome_class[leaf.outcome];
  };
  std::uint64_t pairs = 0;
  for (std::size_t i = 0; i < search.leaves.size(); ++i) {
    if (matters == narrowed) return matters;
    for (std::size_t j = 0; j < i; ++j) {
      if (++pairs > most_pairs) return narrowed;
      if (told_apart(search.leaves[i]) == told_apart(search.leaves[j])) continue;
      if (const auto variable = only_difference(search.leaves[i].box, search.leaves[j].box))
        matters[*variable] = 1;
    }
  }
  return matters;
}

}  // namespace engine
