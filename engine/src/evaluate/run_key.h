// What names a run of a call or a condition, so that a search need not make it again: what is run, and the values it
// starts from, as far as they outlive the run.

#pragma once

#include <optional>
#include <span>
#include <vector>

#include "evaluate/code.h"

namespace engine {

/// Nothing when one of `values` lives in this run alone, or when there are too many.
std::optional<FactSource::Key> key_of(Evaluation::State& state, const void* what, std::span<const Value> values);

/// The slots around `node` that it reads; nothing when it reads variables further out or makes a function.
std::optional<std::vector<std::uint32_t>> slots_read(const Node& node);

}  // namespace engine
