// The operators of FEEL on values. Source: DMN 1.5, 10.3.2.13 (operator semantics); docs/feel.md sections 7 and 9.

#pragma once

#include <compare>

#include "evaluate/code.h"

namespace engine {

using State = Evaluation::State;

/// `a = b`. Unknown when the two are of different types, or cannot be told equal (a local and a zoned time).
Logic equal(State& state, const Value& a, const Value& b);

/// The order of two values of the same ordered type; unordered when they are not comparable.
std::partial_ordering order(const Value& a, const Value& b);

/// True for the types that have an order.
bool is_ordered(Kind kind);

/// `a op b` for a comparison operator, null rules included. `at` is blamed for a clash of types.
Logic compare(State& state, const Code& at, Operation operation, const Value& a, const Value& b);

/// Whether `point` lies in `range`.
Logic contains(const Range& range, const Value& point);

/// `a op b` for + - * / **.
Value arithmetic(State& state, const Code& at, Operation operation, const Value& a, const Value& b);

/// FEEL's `is(a, b)`: the same type and the same stored fields.
bool identical(State& state, const Value& a, const Value& b);

/// A range as written `[start..end]`; null and a diagnostic when the ends do not fit together.
Value make_range(State& state, const Code& at, const Range& range);

}  // namespace engine
