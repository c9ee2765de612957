// The parts of dates, times, durations and ranges that a path can name: `d.year`, `r.start included`.

#pragma once

#include <optional>
#include <string_view>

#include "engine/value.h"

namespace engine {

/// No value when the type of `value` has no such property.
std::optional<Value> property_of(const Value& value, std::string_view name, Arena& arena);

}  // namespace engine
