#include "advice/ways.h"

#include <algorithm>

namespace engine {

namespace {

/// `box` and `other` have completions in common when `variable` is left out of the comparison.
bool meet_but_for(const Box& box, const Box& other, std::uint32_t variable) {
  for (std::size_t i = 0, j = 0; i < box.size() && j < other.size();) {
    if (box[i].first < other[j].first) {
      ++i;
    } else if (other[j].first < box[i].first) {
      ++j;
    } else {
      if (box[i].first != variable && !box[i].second.meets(other[j].second)) return false;
      ++i;
      ++j;
    }
  }
  return true;
}

const CandidateSet* set_of(const Box& box, std::uint32_t variable) {
  for (const auto& [named, set] : box) {
    if (named == variable) return &set;
  }
  return nullptr;
}

/// Lets every variable of `box` take whatever still leads to `outcome` only.
void widen(Box& box, const Search& search, const OpenVariables& variables, std::uint32_t outcome) {
  for (std::size_t at = box.size(); at-- > 0;) {
    const std::uint32_t variable = box[at].first;
    const CandidateSet full = CandidateSet::first(variables.variables[variable].candidates);
    CandidateSet barred;
    for (const Leaf& leaf : search.leaves) {
      if (leaf.outcome == outcome || !meet_but_for(box, leaf.box, variable)) continue;
      const CandidateSet* set = set_of(leaf.box, variable);
      barred = barred | (set != nullptr ? *set : full);
    }
    box[at].second = box[at].second | (full - barred);
    if (box[at].second == full) box.erase(box.begin() + static_cast<std::ptrdiff_t>(at));
  }
}

bool contains(const Box& outer, const Box& inner) {
  return std::all_of(outer.begin(), outer.end(), [&](const auto& entry) {
    const CandidateSet* set = set_of(inner, entry.first);
    return set != nullptr && (*set - entry.second).empty();
  });
}

}  // namespace

Ways simplest_ways(const Search& search, const OpenVariables& variables, std::uint32_t outcome,
                   std::size_t most) {
  std::vector<const Leaf*> leaves;
  for (const Leaf& leaf : search.leaves) {
    if (leaf.outcome == outcome) leaves.push_back(&leaf);
  }
  std::stable_sort(leaves.begin(), leaves.end(),
                   [](const Leaf* a, const Leaf* b) { return a->box.size() < b->box.size(); });
  Ways ways;
  for (const Leaf* leaf : leaves) {
    const auto covers = [&](const Box& box) { return contains(box, leaf->box); };
    if (std::any_of(ways.boxes.begin(), ways.boxes.end(), covers)) continue;
    if (ways.boxes.size() == most) {
      ways.more = true;
      break;
    }
    Box box = leaf->box;
    if (!search.exhausted) widen(box, search, variables, outcome);
    // A way that the new one contains says nothing more.
    std::erase_if(ways.boxes, [&](const Box& narrower) { return contains(box, narrower); });
    ways.boxes.push_back(std::move(box));
  }
  std::stable_sort(ways.boxes.begin(), ways.boxes.end(),
                   [](const Box& a, const Box& b) { return a.size() < b.size(); });
  return ways;
}

}  // namespace engine
