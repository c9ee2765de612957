// Inside a Decimal: its parts, and the ways back from longer results to 34 digits.

#pragma once

#include "engine/decimal.h"
#include "numbers/wide.h"

namespace engine {

struct DecimalParts {
  bool negative = false;
  Uint128 coefficient = 0;
  int exponent = 0;

  static DecimalParts of(const Decimal& value) {
    return {value.negative_, Uint128{value.high_} << 64 | value.low_, value.exponent_};
  }
  /// Only when the parts are within the limits of Decimal.
  Decimal decimal() const {
    Decimal result;
    result.low_ = low_half(coefficient);
    result.high_ = high_half(coefficient);
    result.exponent_ = static_cast<std::int16_t>(exponent);
    result.negative_ = negative;
    return result;
  }
};

/// A number with its last digits cut off.
struct Cut {
  Uint256 rest;
  unsigned digit = 0;  ///< The first digit cut off.
  bool more = false;   ///< Whether anything but zeros follows it.
};

/// Cuts off the last `count` digits. `more`: digits beyond `value` are not all zero.
Cut cut_digits(Uint256 value, int count, bool more);

/// Whether rounding takes the next coefficient away from zero.
bool rounds_away(const Cut& cut, Rounding rounding, bool negative);

/// `coefficient` x 10^`exponent`, rounded half even to 34 digits. No value when too large; too small becomes
/// zero. `more`: there is something beyond, smaller than one unit of `coefficient`, which then has 35 digits
/// at least.
std::optional<Decimal> rounded(bool negative, const Uint256& coefficient, int exponent, bool more = false);

/// The same value in its shortest form: whole numbers within int64 with exponent 0, all others without
/// trailing zeros.
Decimal simplified(const Decimal& value);
inline std::optional<Decimal> simplified(const std::optional<Decimal>& value) {
  return value ? std::optional{simplified(*value)} : std::nullopt;
}

}  // namespace engine
