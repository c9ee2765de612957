// Square root, exponential, logarithm and power, in fixed point with 96 digits and rounded once at the end.
//
// Exponential and logarithm bring their argument near 0 or 1 by factors 1 + 2^-k, whose logarithms are in a
// table, and then sum a short power series. The table is computed from its own series when it is first
// needed. Source of the method: Muller, "Elementary Functions", chapter on shift-and-add algorithms.

#include <algorithm>
#include <array>
#include <cstdlib>

#include "numbers/decimal_parts.h"
#include "numbers/fixed_point.h"

namespace engine {
namespace {

/// A fixed-point number with a sign.
struct Signed {
  bool negative = false;
  Fixed magnitude;
};

Signed difference(Fixed plus, Fixed minus) {
  if (plus < minus) return {true, minus -= plus};
  return {false, plus -= minus};
}

/// Multiplies by 10^`exponent` in place; false when the product does not fit.
bool scale(Fixed& value, int exponent) {
  constexpr int nothing_left = -150;
  if (exponent < nothing_left) value = Fixed{};
  for (; exponent < 0 && !value.is_zero(); exponent += std::min(-exponent, 19)) {
    value /= reciprocals_of_ten[static_cast<std::size_t>(std::min(-exponent, 19))];
  }
  for (; exponent > 0 && !value.is_zero(); exponent -= std::min(exponent, 19)) {
    if (!value.multiply(small_powers_of_ten[static_cast<std::size_t>(std::min(exponent, 19))])) return false;
  }
  return true;
}

/// `value` x 10^`exponent`, rounded to 34 digits.
std::optional<Decimal> to_decimal(const Signed& value, int exponent) {
  Fixed scaled = value.magnitude;
  if (scaled.is_zero()) return Decimal{};
  const auto enlarge = [&](int digits, Uint128 while_below) {
    for (; scaled.whole() < while_below; exponent -= digits) scale(scaled, digits);
  };
  enlarge(18, power_of_ten(18));
  enlarge(6, power_of_ten(31));
  enlarge(1, power_of_ten(36));
  return simplified(rounded(value.negative, scaled.whole(), exponent, scaled.has_fraction()));
}

constexpr std::size_t factor_count = 17;     // k = 0 ... 16
constexpr std::uint64_t series_length = 20;  // 2^-(16 x 20) is the last bit

/// Twice the area tangent of 1/n: ln((n + 1) / (n - 1)).
Fixed logarithm_around(std::uint64_t n) {
  const auto square = Reciprocal::of(n * n);
  Fixed power = Fixed::of(2);
  power /= Reciprocal::of(n);
  Fixed sum;
  for (std::uint64_t odd = 1; !power.is_zero(); odd += 2) {
    Fixed term = power;
    sum += term /= Reciprocal::of(odd);
    power /= square;
  }
  return sum;
}

struct Table {
  std::array<Fixed, factor_count> logarithm_of_factor;   ///< ln(1 + 2^-k); the first is ln 2
  std::array<Reciprocal, series_length + 1> reciprocal;  ///< of 1, 2, 3 ...
  Fixed logarithm_of_ten;

  Table() {
    for (std::size_t k = 0; k < factor_count; ++k) {
      logarithm_of_factor[k] = logarithm_around((std::uint64_t{2} << k) + 1);
    }
    for (std::uint64_t n = 1; n <= series_length; ++n) reciprocal[n] = Reciprocal::of(n);
    logarithm_of_ten = logarithm_around(9);  // ln(10/8), and 8 = 2 x 2 x 2
    for (int i = 0; i < 3; ++i) logarithm_of_ten += logarithm_of_factor[0];
  }
};

const Table& table() {
  static const Table instance;
  return instance;
}

/// e^value for 0 <= value <= ln 10.
Fixed exponential_below_ten(Fixed value) {
  Fixed factors = Fixed::of(1);
  for (std::size_t k = 0; k < factor_count; ++k) {
    const Fixed& step = table().logarithm_of_factor[k];
    for (; step <= value; value -= step) factors += factors.shifted_right(static_cast<int>(k));
  }
  Fixed series = Fixed::of(1);
  for (std::size_t n = series_length; n > 0; --n) {
    series = series * value;
    series /= table().reciprocal[n];
    series += Fixed::of(1);
  }
  return factors * series;
}

/// How often `part` goes into `value`, when that is below 2^14: exact or one too many or too few.
std::uint64_t estimate_ratio(const Fixed& value, const Fixed& part) {
  const auto leading = [](const Fixed& number) {
    constexpr int kept_fraction_bits = 48;
    const Uint128 top = Uint128{number.limb[Fixed::whole_at]} << 64 | number.limb[Fixed::whole_at - 1];
    return low_half(top >> (64 - kept_fraction_bits));
  };
  return leading(value) / leading(part);
}

std::optional<Decimal> exponential(const Signed& power) {
  constexpr unsigned out_of_range = 14'300;  // e^14300 > 10^6210, e^-14300 < 10^-6210
  if (power.magnitude.whole() >= out_of_range)
    return power.negative ? std::optional{Decimal{}} : std::nullopt;

  // e^power = 10^tens x e^rest with 0 <= rest <= ln 10.
  const Fixed& ten = table().logarithm_of_ten;
  std::uint64_t tens = estimate_ratio(power.magnitude, ten);
  const auto rest_after = [&](std::uint64_t count) {
    Fixed whole_tens = ten;
    whole_tens.multiply(count);
    return power.negative ? difference(whole_tens, power.magnitude) : difference(power.magnitude, whole_tens);
  };
  if (power.negative) ++tens;
  Signed rest = rest_after(tens);
  while (rest.negative) rest = rest_after(power.negative ? ++tens : --tens);
  while (ten < rest.magnitude) rest = rest_after(power.negative ? --tens : ++tens);

  const int exponent = power.negative ? -static_cast<int>(tens) : static_cast<int>(tens);
  return to_decimal({false, exponential_below_ten(rest.magnitude)}, exponent);
}

/// The natural logarithm of `coefficient` x 10^`exponent`, which is above zero.
Signed natural_logarithm(Uint128 coefficient, int exponent) {
  // Between 0.3 and 3, so that near 1 no tens and no cancellation come in.
  const int zeros = digit_count(coefficient) - 1;
  int tens = exponent + zeros;
  Fixed value = Fixed::of(coefficient);
  scale(value, -zeros);
  if (Fixed::of(3) < value) {
    value /= reciprocals_of_ten[1];
    ++tens;
  }
  Fixed above;  // what is to be added
  Fixed below;  // what is to be subtracted
  (tens < 0 ? below : above) = table().logarithm_of_ten;
  (tens < 0 ? below : above).multiply(static_cast<std::uint64_t>(std::abs(tens)));

  for (; Fixed::of(1) < value; value = value.shifted_right(1)) above += table().logarithm_of_factor[0];
  for (std::size_t k = 0; k < factor_count; ++k) {
    for (;;) {
      Fixed larger = value;
      larger += value.shifted_right(static_cast<int>(k));
      if (Fixed::of(1) < larger) break;
      value = larger;
      below += table().logarithm_of_factor[k];
    }
  }
  // ln(1 - gap) = -(gap + gap^2/2 + gap^3/3 + ...)
  Fixed gap = Fixed::of(1);
  gap -= value;
  Fixed series;
  for (std::size_t n = series_length; n > 0; --n) {
    Fixed term = Fixed::of(1);
    series = series * gap;
    series += term /= table().reciprocal[n];
  }
  below += series * gap;
  return difference(above, below);
}

/// The whole part of the square root, by Newton's method from above.
Uint128 whole_square_root(const Uint256& value) {
  const int half_bits = (bit_length(value) + 1) / 2;
  Uint128 root = half_bits >= 128 ? ~Uint128{0} : Uint128{1} << half_bits;
  for (;;) {
    const Uint128 quotient = divide(value, root).quotient;
    if (quotient >= root) return root;
    root = quotient + (root - quotient) / 2;
  }
}

bool is_odd(const Decimal& whole) {
  const auto parts = DecimalParts::of(simplified(whole));
  return parts.exponent == 0 && low_half(parts.coefficient) % 2 != 0;
}

/// The product, when it has at most 34 digits.
std::optional<Decimal> exact_product(const Decimal& a, const Decimal& b) {
  const auto left = DecimalParts::of(simplified(a));
  const auto right = DecimalParts::of(simplified(b));
  const Uint256 product = times(left.coefficient, right.coefficient);
  const int exponent = left.exponent + right.exponent;
  if (digit_count(product) > Decimal::digits || exponent < Decimal::min_exponent) return std::nullopt;
  return rounded(left.negative != right.negative, product, exponent);
}

/// By repeated squaring, as long as every step is exact. `exponent` is above zero.
std::optional<Decimal> exact_power(const Decimal& base, std::uint64_t exponent) {
  Decimal result{1};
  Decimal square = base;
  for (;;) {
    if (exponent % 2 != 0) {
      const auto product = exact_product(result, square);
      if (!product) return std::nullopt;
      result = *product;
    }
    exponent /= 2;
    if (exponent == 0) return result;
    const auto next = exact_product(square, square);
    if (!next) return std::nullopt;
    square = *next;
  }
}

std::optional<Decimal> exact_power(const Decimal& base, const Decimal& exponent) {
  const auto whole = exponent.to_int64();
  if (!whole || *whole == INT64_MIN) return std::nullopt;
  const auto result = exact_power(base, static_cast<std::uint64_t>(std::abs(*whole)));
  return *whole < 0 && result ? divide(Decimal{1}, *result) : result;
}

/// |base|^exponent = e^(exponent x ln |base|)
std::optional<Decimal> power_of_magnitude(const Decimal& base, const Decimal& exponent) {
  const auto parts = DecimalParts::of(base);
  const auto factor = DecimalParts::of(exponent);
  const Signed logarithm_of_base = natural_logarithm(parts.coefficient, parts.exponent);
  Signed product{logarithm_of_base.negative != factor.negative,
                 logarithm_of_base.magnitude * Fixed::of(factor.coefficient)};
  if (scale(product.magnitude, factor.exponent)) return exponential(product);
  return product.negative ? std::optional{Decimal{}} : std::nullopt;
}

}  // namespace

std::optional<Decimal> square_root(const Decimal& value) {
  if (value.is_negative()) return std::nullopt;
  if (value.is_zero()) return Decimal{};
  const auto parts = DecimalParts::of(value);
  // 69 or 70 digits give a root of 35, and the exponent must be even.
  int zeros = 2 * Decimal::digits + 1 - digit_count(parts.coefficient);
  if ((parts.exponent - zeros) % 2 != 0) ++zeros;
  const Uint256 radicand = times(powers_of_ten[static_cast<std::size_t>(zeros)], parts.coefficient);
  const Uint128 root = whole_square_root(radicand);
  const bool more = less(times(root, root), radicand);
  return simplified(rounded(false, root, (parts.exponent - zeros) / 2, more));
}

std::optional<Decimal> exponential(const Decimal& value) {
  const auto parts = DecimalParts::of(value);
  Signed power{parts.negative, Fixed::of(parts.coefficient)};
  if (scale(power.magnitude, parts.exponent)) return exponential(power);
  return parts.negative ? std::optional{Decimal{}} : std::nullopt;
}

std::optional<Decimal> logarithm(const Decimal& value) {
  if (value.is_zero() || value.is_negative()) return std::nullopt;
  const auto parts = DecimalParts::of(value);
  return to_decimal(natural_logarithm(parts.coefficient, parts.exponent), 0);
}

std::optional<Decimal> power(const Decimal& base, const Decimal& exponent) {
  if (exponent.is_zero()) return Decimal{1};
  if (base.is_zero()) return exponent.is_negative() ? std::nullopt : std::optional{Decimal{}};
  const bool whole = exponent.is_integer();
  if (base.is_negative() && !whole) return std::nullopt;
  if (exponent == Decimal{2}) return multiply(base, base);
  if (whole) {
    if (const auto exact = exact_power(base, exponent)) return exact;
  }
  const auto result = power_of_magnitude(base, exponent);
  return result && base.is_negative() && is_odd(exponent) ? result->negated() : result;
}

}  // namespace engine
