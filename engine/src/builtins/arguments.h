// What most built-ins do first and last: look at what they were given, and make a list, text or number of the
// result.

#pragma once

#include <initializer_list>
#include <optional>
#include <span>
#include <string_view>

#include "builtins/index.h"

namespace engine {

/// Null and a diagnostic when an argument is not of its kind; no value when all are. A list of one such value
/// is unwrapped first, as for any parameter (DMN 1.5, 10.3.2.9.4). Kinds beyond the arguments that were given
/// do not count.
std::optional<Value> misfit(const BuiltinCall& call, std::initializer_list<Kind> kinds);

/// The items of argument `i`. A value that is no list counts as a list of itself (policy: as in a filter). No
/// value for null, with a diagnostic.
std::optional<std::span<const Value>> items_of(const BuiltinCall& call, std::size_t i = 0);

/// What an aggregate is taken over: the items of one list, or all the arguments.
std::optional<std::span<const Value>> aggregated_items(const BuiltinCall& call);

/// Where a position points to, from 0: position 1 is the first of `size`, -1 the last. A fraction is cut off.
/// No value for 0 and beyond the ends.
std::optional<std::size_t> place_of(const Decimal& position, std::size_t size);

/// Copies of `items` and `text` that live as long as the evaluation; null and a diagnostic beyond the budget.
Value new_list(const BuiltinCall& call, std::span<const Value> items);
Value new_string(const BuiltinCall& call, std::string_view text);

/// The number, or null and a diagnostic when the operation had no result.
Value number_or_fault(const BuiltinCall& call, const std::optional<Decimal>& number);

}  // namespace engine
