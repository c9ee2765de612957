// Deep copies that look at every value on the way.

#pragma once

#include <functional>

#include "engine/value.h"

namespace engine {

/// A deep copy into `arena` of what `look` gives for each value, from the outside inward.
Value copy(const Value& value, Arena& arena, const std::function<Value(const Value&)>& look);

}  // namespace engine
