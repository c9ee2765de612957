// A set of completions of the open facts: for each variable the candidates that it may take.

#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "advice/candidate_set.h"

namespace engine {

/// The completions in which each variable named is within its set; a variable that is not named is free.
/// Sorted by variable.
using Box = std::vector<std::pair<std::uint32_t, CandidateSet>>;

/// Sets what `box` says of `variable`.
void narrow(Box& box, std::uint32_t variable, const CandidateSet& set);

/// What `box` says of `variable`; null when it is free.
const CandidateSet* set_of(const Box& box, std::uint32_t variable);

/// Every completion of `inner` is one of `outer`.
bool contains(const Box& outer, const Box& inner);

}  // namespace engine
