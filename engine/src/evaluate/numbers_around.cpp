#include "evaluate/numbers_around.h"

#include <algorithm>
#include <functional>

namespace engine {

std::optional<std::vector<Decimal>> numbers_around(const std::vector<Decimal>& marks) {
  std::vector<Decimal> around;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const auto sum = i == 0 ? subtract(marks[0], 2) : add(marks[i - 1], marks[i]);
    const auto below = !sum || i == 0 ? sum : divide(*sum, 2);
    if (!below) return std::nullopt;
    around.push_back(*below);
    around.push_back(marks[i]);
  }
  if (marks.empty()) return around;
  const auto above = add(marks.back(), 2);
  if (!above) return std::nullopt;
  around.push_back(*above);
  const bool parted =
      std::adjacent_find(around.begin(), around.end(), std::greater_equal<>()) == around.end();
  return parted ? std::optional(std::move(around)) : std::nullopt;
}

}  // namespace engine
