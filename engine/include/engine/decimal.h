// FEEL numbers: decimal, 34 significant digits, round half to even after each operation.
//
// Source: IEEE 754-2008 decimal128 without NaN, infinities and signed zero; DMN 1.5, 10.3.2.3 (FEEL number).
// Own type: the compiler's decimal128 is not in clang 14 and has no text form (docs/decisions).
// Invalid operations and overflow give no value; the evaluator turns that into null and a diagnostic.
// Too small a result becomes zero. Never goes through binary floating point.
//
// One value has several forms (5 and 5.00): compare by value, never by parts. Sums, differences and products
// of numbers whose coefficients fit int64 are worked out here, inline; everything else is in numbers/*.cpp.

#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace engine {

/// How `round` treats what it cuts off. The names are FEEL's.
enum class Rounding { half_even, half_up, half_down, up, down, floor, ceiling };

class Decimal {
 public:
  static constexpr int digits = 34;
  static constexpr int max_exponent = 6111;   ///< Of the last digit: 10^34-1 x 10^6111 is the largest number.
  static constexpr int min_exponent = -6176;  ///< Of the last digit.

  constexpr Decimal() = default;         ///< Zero.
  constexpr Decimal(std::int64_t whole)  // NOLINT: a whole number is a number
      : low_(whole < 0 ? 0 - static_cast<std::uint64_t>(whole) : static_cast<std::uint64_t>(whole)),
        negative_(whole < 0) {}

  /// `coefficient` x 10^`exponent`, exact. The small form that values are stored in.
  static constexpr Decimal of(std::int64_t coefficient, int exponent) {
    Decimal result{coefficient};
    result.exponent_ = static_cast<std::int16_t>(exponent);
    return result;
  }

  /// Reads `[-]digits[.digits][e[+|-]digits]` or `[-].digits...`, rounding to 34 digits. No value when
  /// malformed or too large; too small becomes zero.
  static std::optional<Decimal> parse(std::string_view text);

  /// Fits the small form: int64 coefficient, exponent in [-128, 127].
  constexpr bool is_small() const {
    return high_ == 0 && low_ <= static_cast<std::uint64_t>(INT64_MAX) && exponent_ >= -128 &&
           exponent_ <= 127;
  }
  /// Only when is_small().
  constexpr std::int64_t small_coefficient() const {
    return negative_ ? -static_cast<std::int64_t>(low_) : static_cast<std::int64_t>(low_);
  }
  constexpr int exponent() const { return exponent_; }

  constexpr bool is_zero() const { return low_ == 0 && high_ == 0; }
  constexpr bool is_negative() const { return negative_ && !is_zero(); }
  bool is_integer() const;
  /// The number as int64, when it is whole and fits.
  std::optional<std::int64_t> to_int64() const;
  /// The number cut toward zero, as int64, when it fits.
  std::optional<std::int64_t> truncated_to_int64() const;

  /// Plain digits, no exponent, no trailing zeros after the point, `-` in front when negative: `1000`,
  /// `0.25`.
  std::string text() const;

  constexpr Decimal negated() const {
    Decimal result = *this;
    result.negative_ = !negative_;
    return result;
  }
  constexpr Decimal magnitude() const {
    Decimal result = *this;
    result.negative_ = false;
    return result;
  }

  /// By value: 5 == 5.00, -0 == 0.
  friend std::strong_ordering operator<=>(const Decimal& a, const Decimal& b) {
    if (a.exponent_ == b.exponent_ && both_fit_int64(a, b))
      return a.small_coefficient() <=> b.small_coefficient();
    return compare(a, b);
  }
  friend bool operator==(const Decimal& a, const Decimal& b) {
    if (a.exponent_ == b.exponent_ && a.negative_ == b.negative_)
      return a.low_ == b.low_ && a.high_ == b.high_;
    return std::is_eq(compare(a, b));
  }

 private:
  friend struct DecimalParts;  // decimal's own .cpp files
  friend std::optional<Decimal> add(const Decimal& a, const Decimal& b);
  friend std::optional<Decimal> multiply(const Decimal& a, const Decimal& b);

  static constexpr bool both_fit_int64(const Decimal& a, const Decimal& b) {
    return (a.high_ | b.high_) == 0 && ((a.low_ | b.low_) >> 63) == 0;
  }
  // The coefficient with zeros added down to the exponent of `lower`, when it and that of `lower` fit int64.
  std::optional<std::int64_t> aligned_to(const Decimal& lower) const;
  // Any two numbers: what the inline fast paths fall back to.
  static std::strong_ordering compare(const Decimal& a, const Decimal& b);
  static std::optional<Decimal> add_any(const Decimal& a, const Decimal& b);
  static std::optional<Decimal> multiply_any(const Decimal& a, const Decimal& b);

  std::uint64_t low_ = 0;  // coefficient = high_ * 2^64 + low_, at most 10^34 - 1
  std::uint64_t high_ = 0;
  std::int16_t exponent_ = 0;
  bool negative_ = false;
};

std::optional<Decimal> add(const Decimal& a, const Decimal& b);
std::optional<Decimal> subtract(const Decimal& a, const Decimal& b);
std::optional<Decimal> multiply(const Decimal& a, const Decimal& b);
/// No value when `b` is zero.
std::optional<Decimal> divide(const Decimal& a, const Decimal& b);
/// Within one unit of the 34th digit; exact when the exponent is whole and the result has at most 34 digits.
/// 0 to the power 0 is 1. No value on overflow, for 0 to a negative power, and for a negative base with an
/// exponent that is not whole.
std::optional<Decimal> power(const Decimal& base, const Decimal& exponent);
/// a - b * floor(a / b), rounded once: zero or the sign of `b`. No value when `b` is zero.
std::optional<Decimal> modulo(const Decimal& a, const Decimal& b);
/// `value` with at most `scale` digits after the point (a negative scale rounds to tens, hundreds ...).
/// No value when scale is outside [-6111, 6176].
std::optional<Decimal> round(const Decimal& value, std::int64_t scale, Rounding rounding);
/// To the nearest 34 digits. No value below zero.
std::optional<Decimal> square_root(const Decimal& value);
/// Within one unit of the 34th digit. No value on overflow.
std::optional<Decimal> exponential(const Decimal& value);
/// Natural logarithm, within one unit of the 34th digit. No value at or below zero.
std::optional<Decimal> logarithm(const Decimal& value);

inline std::optional<Decimal> add(const Decimal& a, const Decimal& b) {
  std::int64_t sum = 0;
  // The shortest form may put the exponent beyond that of a last digit: 9e6144. Such sums can overflow.
  if (a.exponent_ == b.exponent_ && a.exponent_ <= Decimal::max_exponent && Decimal::both_fit_int64(a, b) &&
      !__builtin_add_overflow(a.small_coefficient(), b.small_coefficient(), &sum)) {
    return Decimal::of(sum, a.exponent_);
  }
  return Decimal::add_any(a, b);
}

inline std::optional<Decimal> subtract(const Decimal& a, const Decimal& b) {
  return add(a, b.negated());
}

inline std::optional<Decimal> multiply(const Decimal& a, const Decimal& b) {
  const int exponent = a.exponent_ + b.exponent_;
  Decimal product;
  if ((a.high_ | b.high_) == 0 && !__builtin_mul_overflow(a.low_, b.low_, &product.low_) &&
      exponent >= Decimal::min_exponent && exponent <= Decimal::max_exponent) {
    product.exponent_ = static_cast<std::int16_t>(exponent);
    product.negative_ = a.negative_ != b.negative_;
    return product;
  }
  return Decimal::multiply_any(a, b);
}

}  // namespace engine
