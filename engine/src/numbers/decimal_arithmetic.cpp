// The four operations and modulo, for numbers that the inline fast paths leave.

#include <algorithm>

#include "numbers/decimal_parts.h"

namespace engine {
namespace {

/// The sum of numbers with one exponent.
std::optional<Decimal> add_coefficients(const DecimalParts& a, const DecimalParts& b) {
  if (a.negative == b.negative) return rounded(a.negative, a.coefficient + b.coefficient, a.exponent);
  const bool a_is_less = a.coefficient < b.coefficient;
  const Uint128 difference = a_is_less ? b.coefficient - a.coefficient : a.coefficient - b.coefficient;
  return DecimalParts{a_is_less ? b.negative : a.negative, difference, a.exponent}.decimal();
}

struct Aligned {
  Uint256 upper;
  Uint256 lower;
  int exponent = 0;
};

/// Brings both coefficients to one exponent. `upper` has the larger exponent; neither is zero.
Aligned align(const DecimalParts& upper, const DecimalParts& lower) {
  const int zeros = upper.exponent - lower.exponent;
  const int upper_digits = digit_count(upper.coefficient);
  constexpr int most_digits = 76;
  if (upper_digits + zeros <= most_digits) {
    const auto power = powers_of_ten[static_cast<std::size_t>(zeros)];
    return {times(power, upper.coefficient), lower.coefficient, lower.exponent};
  }
  // The lower number is less than one unit of the 38th digit of the upper one. Only that it is there counts,
  // and one such unit rounds as it does.
  constexpr int kept_digits = 38;
  const int added = kept_digits - upper_digits;
  return {times(upper.coefficient, power_of_ten(added)), Uint128{1}, upper.exponent - added};
}

std::optional<Decimal> add_aligned(bool upper_negative, bool lower_negative, const Aligned& both) {
  if (upper_negative == lower_negative) {
    return rounded(upper_negative, plus(both.upper, both.lower), both.exponent);
  }
  if (less(both.upper, both.lower))
    return rounded(lower_negative, minus(both.lower, both.upper), both.exponent);
  return rounded(upper_negative, minus(both.upper, both.lower), both.exponent);
}

/// Long results with zeros at the end are worth shortening: they may fit int64 again.
std::optional<Decimal> shortened(const std::optional<Decimal>& value) {
  if (!value || value->is_small()) return value;
  return simplified(*value);
}

/// The quotient of coefficients, when it is whole.
std::optional<Decimal> divide_whole(const DecimalParts& a, const DecimalParts& b) {
  if (high_half(a.coefficient | b.coefficient) != 0) return std::nullopt;
  const std::uint64_t dividend = low_half(a.coefficient);
  const std::uint64_t divisor = low_half(b.coefficient);
  if (dividend % divisor != 0) return std::nullopt;
  return rounded(a.negative != b.negative, Uint128{dividend / divisor}, a.exponent - b.exponent);
}

/// `value` x 10^`exponent` modulo `by`. Only when value < by.
Uint128 scaled_remainder(Uint128 value, int exponent, Uint128 by) {
  while (exponent > 0 && value != 0) {
    const int step = std::min(exponent, Decimal::digits);
    value = divide(times(value, power_of_ten(step)), by).remainder;
    exponent -= step;
  }
  return value;
}

/// The rest after dividing toward zero, which is exact; its sign is that of `a`.
DecimalParts truncated_remainder(const DecimalParts& a, const DecimalParts& b) {
  const int zeros = a.exponent - b.exponent;
  if (zeros >= 0) {
    return {a.negative, scaled_remainder(a.coefficient % b.coefficient, zeros, b.coefficient), b.exponent};
  }
  if (digit_count(b.coefficient) - zeros > Decimal::digits) return a;  // |b| > |a|
  return {a.negative, a.coefficient % (b.coefficient * power_of_ten(-zeros)), a.exponent};
}

}  // namespace

std::optional<Decimal> Decimal::add_any(const Decimal& a, const Decimal& b) {
  const Decimal& upper = a.exponent_ > b.exponent_ ? a : b;
  const Decimal& lower = a.exponent_ > b.exponent_ ? b : a;
  if (const auto aligned = upper.aligned_to(lower); aligned && lower.exponent_ <= max_exponent) {
    std::int64_t sum = 0;
    if (!__builtin_add_overflow(*aligned, lower.small_coefficient(), &sum)) return of(sum, lower.exponent_);
  }
  if (a.is_zero()) return b;
  if (b.is_zero()) return a;
  if (a.exponent_ == b.exponent_)
    return shortened(add_coefficients(DecimalParts::of(a), DecimalParts::of(b)));
  const auto both = align(DecimalParts::of(upper), DecimalParts::of(lower));
  return shortened(add_aligned(upper.negative_, lower.negative_, both));
}

std::optional<Decimal> Decimal::multiply_any(const Decimal& a, const Decimal& b) {
  const auto left = DecimalParts::of(a);
  const auto right = DecimalParts::of(b);
  const Uint256 product = times(left.coefficient, right.coefficient);
  return shortened(rounded(left.negative != right.negative, product, left.exponent + right.exponent));
}

std::optional<Decimal> divide(const Decimal& a, const Decimal& b) {
  if (b.is_zero()) return std::nullopt;
  if (a.is_zero()) return Decimal{};
  const auto left = DecimalParts::of(a);
  const auto right = DecimalParts::of(b);
  if (const auto whole = divide_whole(left, right)) return simplified(whole);

  // So many zeros that the quotient has 35 or 36 digits; of what is left over only matters whether it is
  // zero.
  const int zeros = Decimal::digits + 1 + digit_count(right.coefficient) - digit_count(left.coefficient);
  const Uint256 dividend = times(powers_of_ten[static_cast<std::size_t>(zeros)], left.coefficient);
  const Quotient result = divide(dividend, right.coefficient);
  const int exponent = left.exponent - right.exponent - zeros;
  const bool negative = left.negative != right.negative;
  const auto quotient = rounded(negative, result.quotient, exponent, result.remainder != 0);
  return result.remainder != 0 ? quotient : simplified(quotient);
}

std::optional<Decimal> modulo(const Decimal& a, const Decimal& b) {
  if (b.is_zero()) return std::nullopt;
  if (a.is_zero()) return Decimal{};
  const auto divisor = DecimalParts::of(b);
  const auto rest = truncated_remainder(DecimalParts::of(a), divisor);
  if (rest.coefficient == 0 || rest.negative == divisor.negative) return rest.decimal();
  return add(rest.decimal(), b);
}

}  // namespace engine
