#include "advice/completions.h"

#include <algorithm>
#include <deque>
#include <set>

namespace engine {

namespace {

/// After the budget is known not to suffice, this many more runs gather outcomes to show.
constexpr std::uint32_t last_runs = 500;

/// Whether swapping the lesion of `variable` with another like it takes `box` into a box that waits from
/// `first` on.
bool is_mirrored(const Box& box, std::uint32_t variable, const Symmetry& symmetry,
                 const std::deque<Box>& pending, std::size_t first) {
  const Symmetry::Where at = symmetry.find(variable);
  if (at.group == nullptr) return false;
  const Symmetry::Block& own = (*at.group)[at.block];
  for (const Symmetry::Block& other : *at.group) {
    if (&other == &own) continue;
    const Box mirror = Symmetry::swapped(box, own, other);
    for (std::size_t i = first; i < pending.size(); ++i) {
      if (contains(pending[i], mirror)) return true;
    }
  }
  return false;
}

/// Whether neither `box` nor a mirror image of it has been met; it has from now on.
bool is_new(const Box& box, const Symmetry& symmetry, std::set<Box>& seen) {
  return symmetry.empty() || seen.insert(symmetry.standard(box)).second;
}

/// The completions in `box` that this run does not answer for, as disjoint boxes; `box` becomes the rest,
/// of which those are left out that another of them mirrors.
void split(Box& box, std::span<const TakenFacts::Step> steps, const Symmetry& symmetry, std::set<Box>& seen,
           std::deque<Box>& pending) {
  const std::size_t first = pending.size();
  for (const TakenFacts::Step& step : steps) {
    Box rest = box;
    narrow(rest, step.variable, step.before - step.after);
    if (!is_mirrored(rest, step.variable, symmetry, pending, first) && is_new(rest, symmetry, seen)) {
      pending.push_back(std::move(rest));
    }
    narrow(box, step.variable, step.after);
  }
}

}  // namespace

Search search(TakenFacts& taken, const Symmetry& symmetry, std::uint32_t budget,
              const std::function<std::optional<std::uint32_t>()>& run) {
  Search result;
  std::deque<Box> pending(1);
  std::set<Box> seen;
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
    split(box, taken.steps(), symmetry, seen, pending);
    result.leaves.push_back({std::move(box), *outcome});
    if (pending.size() > budget && !result.exhausted) {  // each needs a run at least
      result.exhausted = true;
      budget = std::min(budget, last_runs);
    }
  }
  result.exhausted = !pending.empty();
  return result;
}

namespace {

/// What holds of one lesion's variable holds of those that mirror it.
void mirror(std::vector<std::uint8_t>& marks, const Symmetry& symmetry) {
  for (const auto& group : symmetry.groups()) {
    for (std::size_t i = 0; i < group.front().size(); ++i) {
      const bool any =
          std::any_of(group.begin(), group.end(), [&](const auto& block) { return marks[block[i]] != 0; });
      for (const Symmetry::Block& block : group) marks[block[i]] = any ? 1 : 0;
    }
  }
}

/// `matters`, and what was tested of lesions that mirror each other.
std::vector<std::uint8_t> with_tested_lesions(std::vector<std::uint8_t> matters,
                                              const std::vector<std::uint8_t>& tested,
                                              const Symmetry& symmetry) {
  for (const auto& group : symmetry.groups()) {
    for (const Symmetry::Block& block : group) {
      for (const std::uint32_t variable : block) matters[variable] |= tested[variable];
    }
  }
  return matters;
}

}  // namespace

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
                                                const Symmetry& symmetry,
                                                const std::vector<std::uint32_t>& outcome_class) {
  constexpr std::uint64_t most_pairs = 3'000'000;
  std::vector<std::uint8_t> narrowed(variables), matters(variables);
  for (const Leaf& leaf : search.leaves) {
    for (const auto& [variable, set] : leaf.box) narrowed[variable] = 1;
  }
  mirror(narrowed, symmetry);
  const auto told_apart = [&](const Leaf& leaf) {
    return leaf.outcome == Leaf::unknown ? Leaf::unknown : outcome_class[leaf.outcome];
  };
  std::uint64_t pairs = 0;
  for (std::size_t i = 0; i < search.leaves.size(); ++i) {
    if (matters == narrowed) return matters;
    for (std::size_t j = 0; j < i; ++j) {
      if (++pairs > most_pairs) return narrowed;
      if (told_apart(search.leaves[i]) == told_apart(search.leaves[j])) continue;
      const auto variable = only_difference(search.leaves[i].box, search.leaves[j].box);
      if (!variable || matters[*variable] != 0) continue;
      matters[*variable] = 1;
      mirror(matters, symmetry);
    }
  }
  // Two leaves that are mirrored differently may hide a pair: then what was tested is taken to matter.
  return symmetry.empty() ? matters : with_tested_lesions(matters, narrowed, symmetry);
}

}  // namespace engine
