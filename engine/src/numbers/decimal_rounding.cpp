// From longer results to 34 digits or fewer, and the rounding functions of FEEL.

#include "numbers/decimal_parts.h"

namespace engine {
namespace {

constexpr std::uint64_t int64_limit = INT64_MAX;

DecimalParts without_trailing_zeros(DecimalParts parts) {
  constexpr int steps[] = {16, 8, 4, 2, 1};
  while (high_half(parts.coefficient) != 0) {
    const int before = parts.exponent;
    for (const int step : steps) {
      const Uint128 power = power_of_ten(step);
      // A multiple of 10^step is a multiple of 2^step: most numbers fail this cheap test.
      if ((low_half(parts.coefficient) & ((std::uint64_t{1} << step) - 1)) != 0) continue;
      if (parts.coefficient % power != 0) continue;
      parts.coefficient /= power;
      parts.exponent += step;
    }
    if (parts.exponent == before) return parts;
  }
  std::uint64_t word = low_half(parts.coefficient);
  while (word % 2 == 0 && word % 10 == 0) {
    word /= 10;
    ++parts.exponent;
  }
  parts.coefficient = word;
  return parts;
}

/// An exponent above the largest is brought down by zeros at the end, where 34 digits leave room for them.
std::optional<Decimal> within_limits(DecimalParts parts) {
  if (parts.coefficient == 0) return Decimal{};
  if (parts.exponent > Decimal::max_exponent) {
    const int zeros = parts.exponent - Decimal::max_exponent;
    if (digit_count(parts.coefficient) + zeros > Decimal::digits) return std::nullopt;
    parts.coefficient *= power_of_ten(zeros);
    parts.exponent = Decimal::max_exponent;
  }
  return parts.decimal();
}

Decimal cut_small(const Decimal& value, int count, int exponent, Rounding rounding) {
  const auto parts = DecimalParts::of(value);
  const std::uint64_t power = small_powers_of_ten[static_cast<std::size_t>(count)];
  const std::uint64_t rest = low_half(parts.coefficient) / power;
  const std::uint64_t cut = low_half(parts.coefficient) % power;
  const std::uint64_t digit = cut / (power / 10);
  const bool more = cut % (power / 10) != 0;
  const bool away =
      rounds_away({Uint128{rest}, static_cast<unsigned>(digit), more}, rounding, parts.negative);
  return DecimalParts{parts.negative, Uint128{rest} + (away ? 1 : 0), exponent}.decimal();
}

}  // namespace

Cut cut_digits(Uint256 value, int count, bool more) {
  if (count > static_cast<int>(powers_of_ten.size())) return {Uint128{0}, 0, more || bit_length(value) != 0};
  while (count > 1) {
    const int step = count - 1 < 19 ? count - 1 : 19;
    more |= divide(value.limb, reciprocals_of_ten[static_cast<std::size_t>(step)]) != 0;
    count -= step;
  }
  const auto digit = divide(value.limb, reciprocals_of_ten[1]);
  return {value, static_cast<unsigned>(digit), more};
}

bool rounds_away(const Cut& cut, Rounding rounding, bool negative) {
  const bool inexact = cut.digit != 0 || cut.more;
  const bool past_half = cut.digit > 5 || (cut.digit == 5 && cut.more);
  switch (rounding) {
    case Rounding::half_even:
      return past_half || (cut.digit == 5 && cut.rest.limb[0] % 2 != 0);
    case Rounding::half_up:
      return cut.digit >= 5;
    case Rounding::half_down:
      return past_half;
    case Rounding::up:
      return inexact;
    case Rounding::down:
      return false;
    case Rounding::floor:
      return inexact && negative;
    case Rounding::ceiling:
      return inexact && !negative;
  }
  return false;
}

std::optional<Decimal> rounded(bool negative, const Uint256& coefficient, int exponent, bool more) {
  const int too_long = digit_count(coefficient) - Decimal::digits;
  const int too_low = Decimal::min_exponent - exponent;
  const int count = too_long > too_low ? too_long : too_low;
  if (count <= 0) return within_limits({negative, coefficient.low(), exponent});

  const Cut cut = cut_digits(coefficient, count, more);
  DecimalParts parts{negative, cut.rest.low(), exponent + count};
  if (rounds_away(cut, Rounding::half_even, negative) && ++parts.coefficient > largest_coefficient) {
    parts.coefficient = power_of_ten(Decimal::digits - 1);
    ++parts.exponent;
  }
  return within_limits(parts);
}

Decimal simplified(const Decimal& value) {
  DecimalParts parts = DecimalParts::of(value);
  if (parts.exponent == 0 && parts.coefficient <= int64_limit) return value;
  if (parts.coefficient == 0) return Decimal{};
  parts = without_trailing_zeros(parts);
  if (parts.exponent > 0 && parts.exponent <= 18) {
    const Uint256 whole = times(parts.coefficient, power_of_ten(parts.exponent));
    if (whole.fits_128_bits() && whole.low() <= int64_limit) {
      parts.coefficient = whole.low();
      parts.exponent = 0;
    }
  }
  return parts.decimal();
}

std::optional<Decimal> round(const Decimal& value, std::int64_t scale, Rounding rounding) {
  if (scale < -Decimal::max_exponent || scale > -Decimal::min_exponent) return std::nullopt;
  const int exponent = -static_cast<int>(scale);
  const int count = exponent - value.exponent();
  if (count <= 0) return value;
  if (value.is_small() && count < static_cast<int>(small_powers_of_ten.size())) {
    const Decimal result = cut_small(value, count, exponent, rounding);
    return exponent > 0 ? simplified(result) : result;
  }
  const auto parts = DecimalParts::of(value);
  const Cut cut = cut_digits(parts.coefficient, count, false);
  const Uint128 away = rounds_away(cut, rounding, parts.negative) ? 1 : 0;
  return simplified(DecimalParts{parts.negative, cut.rest.low() + away, exponent}.decimal());
}

}  // namespace engine
