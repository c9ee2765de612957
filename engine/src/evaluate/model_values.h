// The value of an input, decision, function or service of the model, during an evaluation.

#pragma once

#include "evaluate/operators.h"

namespace engine {

/// Computed when first asked for, then kept. `at` is who asks.
Value element_value(State& state, const Code& at, std::uint32_t element);

}  // namespace engine
