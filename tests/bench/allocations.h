// Counts what the program takes from the heap.

#pragma once

#include <cstddef>

namespace bench {

/// Calls of `operator new` since the start, in this thread.
std::size_t allocations();

/// How many of them one call of `work` makes on average, once it has run.
template <class Work>
double allocations_of(Work work) {
  constexpr std::size_t calls = 1'000;
  work();
  const std::size_t before = allocations();
  for (std::size_t i = 0; i < calls; ++i) work();
  return static_cast<double>(allocations() - before) / static_cast<double>(calls);
}

}  // namespace bench
