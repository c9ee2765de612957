#include "advice/box.h"

#include <algorithm>

namespace engine {

namespace {

auto place_of(const Box& box, std::uint32_t variable) {
  return std::lower_bound(box.begin(), box.end(), variable,
                          [](const auto& entry, std::uint32_t wanted) { return entry.first < wanted; });
}

}  // namespace

void narrow(Box& box, std::uint32_t variable, const CandidateSet& set) {
  const auto at = box.begin() + (place_of(box, variable) - box.cbegin());
  if (at != box.end() && at->first == variable) {
    at->second = set;
  } else {
    box.insert(at, {variable, set});
  }
}

const CandidateSet* set_of(const Box& box, std::uint32_t variable) {
  const auto at = place_of(box, variable);
  return at != box.end() && at->first == variable ? &at->second : nullptr;
}

bool contains(const Box& outer, const Box& inner) {
  return std::all_of(outer.begin(), outer.end(), [&](const auto& entry) {
    const CandidateSet* set = set_of(inner, entry.first);
    return set != nullptr && (*set - entry.second).empty();
  });
}

}  // namespace engine
