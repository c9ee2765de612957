// Entries gone through in parts beside each other, each part on a thread of its own.

#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <thread>
#include <vector>

#include "engine/result.h"

namespace ledger {

/// The entries from number `first` to `last`, both included.
struct Span {
  std::int64_t first = 0, last = 0;
};

/// Up to `last`; whatever numbers a falsified ledger has, each is in one part. No part is so small that a
/// thread is not worth it.
inline std::vector<Span> spans_of(std::uint64_t last, std::uint32_t threads) {
  constexpr std::int64_t smallest = 1'000;
  const auto end = static_cast<std::int64_t>(last);
  const std::int64_t count = std::clamp<std::int64_t>(end / smallest, 1, std::max<std::uint32_t>(1, threads));
  std::vector<Span> spans;
  std::int64_t first = std::numeric_limits<std::int64_t>::min();
  for (std::int64_t i = 1; i <= count; ++i) {
    spans.push_back({first, i == count ? end : end / count * i});
    first = spans.back().last + 1;
  }
  return spans;
}

/// What `work` finds in each part, in their order. `work` must not throw: an exception would end the program.
template <class Found, class Work>
std::vector<engine::Result<Found>> over(const std::vector<Span>& spans, Work work) {
  std::vector<engine::Result<Found>> found(spans.size(), Found{});
  std::vector<std::thread> running;
  for (std::size_t i = 1; i < spans.size(); ++i) running.emplace_back([&, i] { found[i] = work(spans[i]); });
  found.front() = work(spans.front());
  for (std::thread& thread : running) thread.join();
  return found;
}

}  // namespace ledger
