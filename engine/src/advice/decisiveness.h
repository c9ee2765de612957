// How much each open fact decides: how many answers are left once it is known.

#pragma once

#include <compare>
#include <cstdint>
#include <vector>

#include "advice/completions.h"
#include "advice/symmetry.h"

namespace engine {

/// Of one variable; the less is left, the more it decides.
struct AnswersLeft {
  std::uint32_t at_worst = 0;        ///< For the value that leaves the most.
  std::uint32_t in_thousandths = 0;  ///< On average over its values.
  friend auto operator<=>(const AnswersLeft&, const AnswersLeft&) = default;
};

/// By variable. `outcome_class` maps outcomes to what is told apart. All are equal after an exhausted search,
/// whose leaves are not all there are.
std::vector<AnswersLeft> answers_left(const Search& search, const OpenVariables& variables,
                                      const Symmetry& symmetry,
                                      const std::vector<std::uint32_t>& outcome_class);

}  // namespace engine
