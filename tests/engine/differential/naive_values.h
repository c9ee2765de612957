// Equality, order and arithmetic as the naive evaluator has them. docs/feel.md, sections 7 to 9.

#pragma once

#include <optional>
#include <stdexcept>

#include "engine/differential/plain_value.h"
#include "syntax/tree.h"

namespace testing {

/// Thrown by what the naive evaluator does not know: the generator must not make it.
struct NotKnown : std::logic_error {
  using std::logic_error::logic_error;
};

/// FEEL's truth: no value for null.
using Truth = std::optional<bool>;
Plain plain(Truth truth);
Truth negated(Truth truth);

/// No value for different types.
Truth equal(const Plain& a, const Plain& b);
/// Below, at or above 0; no value for what has no order.
std::optional<int> order(const Plain& a, const Plain& b);
/// No value where it cannot be told.
Truth contains(const PlainRange& range, const Plain& point);
/// Null where there is no result.
Plain calculate(engine::Operation operation, const Plain& a, const Plain& b);
/// Null where there is none.
Plain negative(const Plain& value);

}  // namespace testing
