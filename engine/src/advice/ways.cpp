#include "advice/ways.h"

#include <algorithm>
#include <cstdint>

namespace engine {

namespace {

/// Finds what a leaf of another outcome, or a mirror image of it, leaves of a variable.
class Barrier {
 public:
  Barrier(const Box& box, const Symmetry& symmetry) : box_(box), symmetry_(symmetry) {}

  /// The candidates of `variable` with which `box` could meet `leaf` or a mirror image of it. Rather too many
  /// than too few: a way is then told more narrowly than it could be.
  CandidateSet of(std::uint32_t variable, const CandidateSet& full, const Box& leaf) const {
    const Symmetry::Where at = symmetry_.find(variable);
    if (!others_meet(variable, at, leaf)) return {};
    if (at.group == nullptr) return given(leaf, variable, full);
    CandidateSet barred;
    const Symmetry::Block& own = (*at.group)[at.block];
    for (const Symmetry::Block& other : *at.group) {
      if (lesions_meet(own, other, leaf, at.index)) barred = barred | given(leaf, other[at.index], full);
    }
    return barred;
  }

 private:
  static CandidateSet given(const Box& box, std::uint32_t variable, const CandidateSet& full) {
    const CandidateSet* set = set_of(box, variable);
    return set != nullptr ? *set : full;
  }

  static bool meet(const CandidateSet* a, const CandidateSet* b) {
    return a == nullptr || b == nullptr || a->meets(*b);
  }

  /// What `box` says of the lesion `own` goes with what `leaf` says of `other`, the variable `but_for` aside.
  bool lesions_meet(const Symmetry::Block& own, const Symmetry::Block& other, const Box& leaf,
                    std::size_t but_for = SIZE_MAX) const {
    for (std::size_t i = 0; i < own.size(); ++i) {
      if (i != but_for && !meet(set_of(box_, own[i]), set_of(leaf, other[i]))) return false;
    }
    return true;
  }

  /// Everything but `variable` and its lesion.
  bool others_meet(std::uint32_t variable, const Symmetry::Where& at, const Box& leaf) const {
    for (const auto& [other, set] : box_) {
      if (other == variable || symmetry_.find(other).group != nullptr) continue;
      if (!meet(&set, set_of(leaf, other))) return false;
    }
    for (const auto& group : symmetry_.groups()) {
      for (std::size_t b = 0; b < group.size(); ++b) {
        if (&group == at.group && b == at.block) continue;
        const auto meets = [&](const Symmetry::Block& other) { return lesions_meet(group[b], other, leaf); };
        if (std::none_of(group.begin(), group.end(), meets)) return false;
      }
    }
    return true;
  }

  const Box& box_;
  const Symmetry& symmetry_;
};

/// Lets every variable of `box` take whatever still leads to `outcome` only.
void widen(Box& box, const Search& search, const OpenVariables& variables, const Symmetry& symmetry,
           std::uint32_t outcome) {
  for (std::size_t at = box.size(); at-- > 0;) {
    const std::uint32_t variable = box[at].first;
    const CandidateSet full = CandidateSet::first(variables.variables[variable].candidates);
    const Barrier barrier(box, symmetry);
    CandidateSet barred;
    for (const Leaf& leaf : search.leaves) {
      if (leaf.outcome != outcome) barred = barred | barrier.of(variable, full, leaf.box);
    }
    box[at].second = box[at].second | (full - barred);
    if (box[at].second == full) box.erase(box.begin() + static_cast<std::ptrdiff_t>(at));
  }
}

}  // namespace

Ways simplest_ways(const Search& search, const OpenVariables& variables, const Symmetry& symmetry,
                   std::uint32_t outcome, std::size_t most) {
  std::vector<const Leaf*> leaves;
  for (const Leaf& leaf : search.leaves) {
    if (leaf.outcome == outcome) leaves.push_back(&leaf);
  }
  std::stable_sort(leaves.begin(), leaves.end(),
                   [](const Leaf* a, const Leaf* b) { return a->box.size() < b->box.size(); });
  Ways ways;
  for (const Leaf* leaf : leaves) {
    const Box standard = symmetry.standard(leaf->box);
    const auto covers = [&](const Box& box) { return contains(box, leaf->box) || contains(box, standard); };
    if (std::any_of(ways.boxes.begin(), ways.boxes.end(), covers)) continue;
    if (ways.boxes.size() == most) {
      ways.more = true;
      break;
    }
    Box box = leaf->box;
    if (!search.exhausted) widen(box, search, variables, symmetry, outcome);
    // A way that the new one contains says nothing more.
    std::erase_if(ways.boxes, [&](const Box& narrower) { return contains(box, narrower); });
    ways.boxes.push_back(std::move(box));
  }
  std::stable_sort(ways.boxes.begin(), ways.boxes.end(),
                   [](const Box& a, const Box& b) { return a.size() < b.size(); });
  return ways;
}

}  // namespace engine
