// Unsigned fixed-point numbers: 128 bits before the point and 320 after it (96 decimal digits).
//
// Wide enough that a power, whose exponent of 34 digits multiplies the error of a logarithm by up to 10^38,
// keeps more than 50 digits. Results are cut off, not rounded.

#pragma once

#include <algorithm>

#include "numbers/wide.h"

namespace engine {

struct Fixed {
  static constexpr std::size_t size = 7;
  static constexpr std::size_t whole_at = 5;  ///< The first limb of the whole part.
  static constexpr int fraction_bits = 320;

  std::array<std::uint64_t, size> limb{};  ///< Least significant first.

  static constexpr Fixed of(Uint128 whole) {
    Fixed result;
    result.limb[whole_at] = low_half(whole);
    result.limb[whole_at + 1] = high_half(whole);
    return result;
  }
  constexpr Uint128 whole() const { return Uint128{limb[whole_at + 1]} << 64 | limb[whole_at]; }
  constexpr bool has_fraction() const {
    return std::any_of(limb.begin(), limb.begin() + whole_at, [](std::uint64_t part) { return part != 0; });
  }
  constexpr bool is_zero() const { return whole() == 0 && !has_fraction(); }

  friend constexpr bool operator<(const Fixed& a, const Fixed& b) {
    return std::lexicographical_compare(a.limb.rbegin(), a.limb.rend(), b.limb.rbegin(), b.limb.rend());
  }
  friend constexpr bool operator<=(const Fixed& a, const Fixed& b) { return !(b < a); }

  constexpr Fixed& operator+=(const Fixed& other) {
    Uint128 carry = 0;
    for (std::size_t i = 0; i < size; ++i) {
      carry += Uint128{limb[i]} + other.limb[i];
      limb[i] = low_half(carry);
      carry >>= 64;
    }
    return *this;
  }
  /// Only when other <= *this.
  constexpr Fixed& operator-=(const Fixed& other) {
    Uint128 borrow = 0;
    for (std::size_t i = 0; i < size; ++i) {
      const Uint128 step = Uint128{limb[i]} - other.limb[i] - borrow;
      limb[i] = low_half(step);
      borrow = high_half(step) != 0 ? 1 : 0;
    }
    return *this;
  }
  /// Divides by 2^bits; bits from 0 to 63.
  constexpr Fixed shifted_right(int bits) const {
    Fixed result;
    for (std::size_t i = 0; i < size; ++i) {
      const std::uint64_t above = i + 1 < size ? limb[i + 1] : 0;
      result.limb[i] = low_half((Uint128{above} << 64 | limb[i]) >> bits);
    }
    return result;
  }
  /// Multiplies in place; false when the product does not fit.
  constexpr bool multiply(std::uint64_t by) {
    Uint128 carry = 0;
    for (auto& part : limb) {
      carry += Uint128{part} * by;
      part = low_half(carry);
      carry >>= 64;
    }
    return carry == 0;
  }
  constexpr Fixed& operator/=(const Reciprocal& by) {
    divide(limb, by);
    return *this;
  }
  /// Only when the product stays below 2^128. Limbs that can only carry into the last one are left out.
  friend constexpr Fixed operator*(const Fixed& a, const Fixed& b) {
    std::array<std::uint64_t, 2 * size> product{};
    for (std::size_t i = 0; i < size; ++i) {
      if (a.limb[i] == 0) continue;
      Uint128 carry = 0;
      for (std::size_t j = i + 1 < whole_at ? whole_at - 1 - i : 0; j < size; ++j) {
        carry += Uint128{a.limb[i]} * b.limb[j] + product[i + j];
        product[i + j] = low_half(carry);
        carry >>= 64;
      }
      product[i + size] = low_half(carry);
    }
    Fixed result;
    std::copy_n(product.begin() + whole_at, size, result.limb.begin());
    return result;
  }
};

}  // namespace engine
