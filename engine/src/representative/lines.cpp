#include "representative/lines.h"

#include <set>

namespace engine {

namespace {

constexpr int largest_size = 60, largest_count = 30, youngest = 16, oldest = 100;

void add_around(std::set<int>& to, std::int64_t line, int least, int most) {
  for (std::int64_t near = line - 1; near <= line + 1; ++near) {
    if (near >= least && near <= most) to.insert(static_cast<int>(near));
  }
}

std::vector<int> as_list(const std::set<int>& numbers) {
  return {numbers.begin(), numbers.end()};
}

}  // namespace

Lines lines_of(std::span<const Decimal> numbers) {
  std::set<std::int64_t> whole;
  for (const Decimal& number : numbers) {
    const auto value = number.to_int64();
    if (value) whole.insert(*value);
  }
  // Also what no rule of these names, so that it can be seen to make no difference.
  std::set<int> sizes = {4, 8, 12, 25}, counts = {1, 2, 3}, ages = {17, 35, 50, 70, 85};
  for (const std::int64_t line : whole) {
    add_around(sizes, line, 1, largest_size);
    add_around(counts, line, 1, largest_count);
    if (line < youngest || line > oldest) continue;
    for (const int years : {0, 1, 3, 5, 7, 10}) add_around(ages, line - years, youngest, oldest);
  }
  return {as_list(sizes), as_list(counts), as_list(ages)};
}

}  // namespace engine
