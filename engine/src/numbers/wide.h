// Unsigned whole numbers of 128 and 256 bits, and short division of longer ones: what 34-digit arithmetic
// needs.
//
// A product of two coefficients and a dividend for 34 quotient digits stay below 10^76, so 256 bits hold
// them. Division by a power of ten multiplies by a reciprocal worked out at compile time. Source: Moeller and
// Granlund, "Improved division by invariant integers", IEEE Transactions on Computers 60 (2011).

#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace engine {

using Uint128 = unsigned __int128;

constexpr std::uint64_t low_half(Uint128 value) {
  return static_cast<std::uint64_t>(value);
}
constexpr std::uint64_t high_half(Uint128 value) {
  return static_cast<std::uint64_t>(value >> 64);
}

struct Uint256 {
  std::array<std::uint64_t, 4> limb{};  ///< Least significant first.

  constexpr Uint256() = default;
  constexpr Uint256(Uint128 value)
      : limb{low_half(value), high_half(value), 0, 0} {}  // NOLINT: widening loses nothing
  constexpr bool fits_128_bits() const { return (limb[2] | limb[3]) == 0; }
  constexpr Uint128 low() const { return Uint128{limb[1]} << 64 | limb[0]; }
  constexpr Uint128 high() const { return Uint128{limb[3]} << 64 | limb[2]; }
};

constexpr bool less(const Uint256& a, const Uint256& b) {
  return a.high() != b.high() ? a.high() < b.high() : a.low() < b.low();
}

constexpr Uint256 plus(const Uint256& a, const Uint256& b) {
  Uint256 sum;
  Uint128 carry = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    carry += Uint128{a.limb[i]} + b.limb[i];
    sum.limb[i] = low_half(carry);
    carry >>= 64;
  }
  return sum;
}

/// Only when a >= b.
constexpr Uint256 minus(const Uint256& a, const Uint256& b) {
  Uint256 difference;
  Uint128 borrow = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Uint128 step = Uint128{a.limb[i]} - b.limb[i] - borrow;
    difference.limb[i] = low_half(step);
    borrow = high_half(step) != 0 ? 1 : 0;
  }
  return difference;
}

constexpr Uint256 times(Uint128 a, Uint128 b) {
  const Uint128 low = Uint128{low_half(a)} * low_half(b);
  const Uint128 cross = Uint128{low_half(a)} * high_half(b);
  const Uint128 other = Uint128{high_half(a)} * low_half(b);
  const Uint128 high = Uint128{high_half(a)} * high_half(b);
  const Uint128 middle = Uint128{high_half(low)} + low_half(cross) + low_half(other);
  Uint256 product;
  product.limb[0] = low_half(low);
  product.limb[1] = low_half(middle);
  const Uint128 top = high + high_half(cross) + high_half(other) + high_half(middle);
  product.limb[2] = low_half(top);
  product.limb[3] = high_half(top);
  return product;
}

/// Only when the product stays below 2^256.
constexpr Uint256 times(const Uint256& a, Uint128 b) {
  Uint256 product = times(a.low(), b);
  const Uint128 high = product.high() + a.high() * b;
  product.limb[2] = low_half(high);
  product.limb[3] = high_half(high);
  return product;
}

/// 10^0 to 10^77, the last below 2^256.
inline constexpr std::array<Uint256, 78> powers_of_ten = [] {
  std::array<Uint256, 78> powers{};
  powers[0] = Uint128{1};
  for (std::size_t i = 1; i < powers.size(); ++i) powers[i] = times(powers[i - 1], 10);
  return powers;
}();

/// 10^0 to 10^19, the last below 2^64.
inline constexpr std::array<std::uint64_t, 20> small_powers_of_ten = [] {
  std::array<std::uint64_t, 20> powers{};
  for (std::size_t i = 0; i < powers.size(); ++i) powers[i] = powers_of_ten[i].limb[0];
  return powers;
}();

/// Only up to 10^38.
constexpr Uint128 power_of_ten(int exponent) {
  return powers_of_ten[static_cast<std::size_t>(exponent)].low();
}

inline constexpr Uint128 largest_coefficient = power_of_ten(34) - 1;

constexpr int bit_length(const Uint256& value) {
  for (int i = 3; i >= 0; --i) {
    const std::uint64_t limb = value.limb[static_cast<std::size_t>(i)];
    if (limb != 0) return 64 * (i + 1) - std::countl_zero(limb);
  }
  return 0;
}

/// How many digits 2^bits has, less one: floor(bits x log10(2)), for up to 256 bits.
constexpr int digits_below(int bits) {
  return bits * 1262611 >> 22;
}

/// How many decimal digits; 0 for 0.
constexpr int digit_count(const Uint256& value) {
  const int below = digits_below(bit_length(value));
  return less(value, powers_of_ten[static_cast<std::size_t>(below)]) ? below : below + 1;
}

constexpr int digit_count(Uint128 value) {
  const std::uint64_t high = high_half(value);
  const int bits = high != 0 ? 128 - std::countl_zero(high) : 64 - std::countl_zero(low_half(value));
  const int below = digits_below(bits);
  return value < power_of_ten(below) ? below : below + 1;
}

/// A divisor made ready for repeated use.
struct Reciprocal {
  std::uint64_t divisor = 0;  ///< Shifted left until its top bit is set.
  std::uint64_t inverse = 0;  ///< floor((2^128 - 1) / divisor) - 2^64
  int shift = 0;

  static constexpr Reciprocal of(std::uint64_t value) {
    Reciprocal result;
    result.shift = std::countl_zero(value);
    result.divisor = value << result.shift;
    result.inverse = low_half(~Uint128{0} / result.divisor);
    return result;
  }
};

inline constexpr std::array<Reciprocal, 20> reciprocals_of_ten = [] {
  std::array<Reciprocal, 20> table{};
  for (std::size_t i = 0; i < table.size(); ++i) table[i] = Reciprocal::of(small_powers_of_ten[i]);
  return table;
}();

/// Divides the shifted number `remainder`:`next` by the divisor: gives the quotient, leaves the rest in
/// `remainder`.
constexpr std::uint64_t divide_step(std::uint64_t& remainder, std::uint64_t next, const Reciprocal& by) {
  const Uint128 estimate = Uint128{by.inverse} * remainder + (Uint128{remainder} << 64 | next);
  std::uint64_t quotient = high_half(estimate) + 1;
  std::uint64_t rest = next - quotient * by.divisor;
  if (rest > low_half(estimate)) {
    --quotient;
    rest += by.divisor;
  }
  if (rest >= by.divisor) {
    ++quotient;
    rest -= by.divisor;
  }
  remainder = rest;
  return quotient;
}

/// Divides a number of `size` limbs in place; gives the remainder.
template <std::size_t size>
constexpr std::uint64_t divide(std::array<std::uint64_t, size>& limb, const Reciprocal& by) {
  std::size_t count = size;
  while (count > 0 && limb[count - 1] == 0) --count;
  if (count == 0) return 0;
  const auto spill = [&](std::uint64_t value) { return value >> 1 >> (63 - by.shift); };
  std::uint64_t remainder = spill(limb[count - 1]);
  for (std::size_t i = count; i-- > 0;) {
    const std::uint64_t next = limb[i] << by.shift | (i > 0 ? spill(limb[i - 1]) : 0);
    limb[i] = divide_step(remainder, next, by);
  }
  return remainder >> by.shift;
}

struct Quotient {
  Uint128 quotient = 0;
  Uint128 remainder = 0;
};

/// Schoolbook division with 64-bit digits. Only when the quotient is below 2^128, that is value.high() < by.
constexpr Quotient divide(const Uint256& value, Uint128 by) {
  const std::uint64_t low_digit = low_half(by) | 1;  // `by` is not zero: this leaves its length as it is
  const int shift = high_half(by) != 0 ? std::countl_zero(high_half(by)) : 64 + std::countl_zero(low_digit);
  const Uint128 divisor = by << shift;
  const Uint128 low = value.low() << shift;
  Uint128 rest = shift == 0 ? value.high() : value.high() << shift | value.low() >> (128 - shift);
  const std::uint64_t top = high_half(divisor);
  Quotient result;
  for (const std::uint64_t next : {high_half(low), low_half(low)}) {
    Uint128 digit = high_half(rest) >= top ? ~std::uint64_t{0} : rest / top;
    // The estimate from the upper half of the divisor is at most 2 too large for the whole of it.
    Uint128 below = digit * low_half(divisor);
    Uint128 left = rest - digit * top;
    while (high_half(left) == 0 && (left << 64 | next) < below) {
      --digit;
      left += top;
      below -= low_half(divisor);
    }
    rest = (left << 64 | next) - below;
    result.quotient = result.quotient << 64 | digit;
  }
  result.remainder = rest >> shift;
  return result;
}

}  // namespace engine
