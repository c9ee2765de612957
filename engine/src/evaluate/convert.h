// Values against declared types: whether they conform, and the few conversions that binding makes.
// Source: DMN 1.5, 10.3.2.9.4 (type conversions), 7.3.3 (allowed values).

#pragma once

#include "evaluate/operators.h"

namespace engine {

/// Kind, keys and elements fit, and every constraint holds. Null fits every type.
bool conforms(State& state, const Value& value, const Type& type);

/// `value` as `type` wants it: itself, wrapped or unwrapped once, or a date as its midnight. Null and a diagnostic
/// when none of these fits.
Value convert(State& state, const Code& at, const Value& value, const Type& type);

/// `value instance of type`: by shape, allowed values do not count; null is an instance of nothing.
bool is_instance(State& state, const Value& value, const Type& type);

}  // namespace engine
