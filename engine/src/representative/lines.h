// Where rules may draw their lines: whole numbers at, just below and just above the numbers that rulesets
// write.

#pragma once

#include <span>
#include <vector>

#include "engine/decimal.h"

namespace engine {

struct Lines {
  std::vector<int> sizes;   ///< Millimetres, 1 to 60.
  std::vector<int> counts;  ///< Polyps, 1 to 30.
  std::vector<int>
      ages;  ///< Years at the examination, 16 to 100, also such that a later due date crosses a line.
};

Lines lines_of(std::span<const Decimal> numbers);

}  // namespace engine
