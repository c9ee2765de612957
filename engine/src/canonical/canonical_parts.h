// The parts of RFC 8785 that do not depend on how a JSON value is held in memory.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace engine {

/// As ECMAScript prints the number (Number::toString, ECMA-262 6.1.6.1.20). `value` is finite.
void append_json_number(std::string& out, double value);

/// The same for a whole number: JSON has one type of number, so one beyond 2^53 is rounded to the nearest
/// double.
void append_json_number(std::string& out, std::int64_t value);
void append_json_number(std::string& out, std::uint64_t value);

/// True when key `a` comes before key `b`: by UTF-16 code units (RFC 8785, 3.2.3). Both are UTF-8.
bool key_before(std::string_view a, std::string_view b);

}  // namespace engine
