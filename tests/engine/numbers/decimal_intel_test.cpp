// Decimals against Intel's decimal floating-point library (Debian: libintelrdfpmath-dev), on random
// operations with a fixed seed. The library is for this test only. Numbers pass to it and back as bits, so
// only our reading of text stands between the two; that reading is compared as well.

#include "engine/decimal.h"

#include <catch2/catch.hpp>

#ifndef DUEWARD_HAS_INTEL_DECIMAL

TEST_CASE("decimals agree with Intel's library", "[decimal][intel]") {
  WARN("skipped: Intel's decimal library was not found (Debian package libintelrdfpmath-dev)");
}

#else

// How the archive libbidgcc000.a was built: arguments by value, rounding mode and flags as arguments.
#define DECIMAL_CALL_BY_REFERENCE 0
#define DECIMAL_GLOBAL_ROUNDING 0
#define DECIMAL_GLOBAL_EXCEPTION_FLAGS 0
#include <bid_conf.h>
#include <bid_functions.h>

#include <algorithm>
#include <cstdint>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

namespace engine {
namespace {

using Coefficient = unsigned __int128;

constexpr int bias = 6176;  // of the exponent in the bit form
constexpr unsigned half_even = 0;
constexpr unsigned toward_negative = 1;
constexpr unsigned toward_positive = 2;
constexpr unsigned toward_zero = 3;
constexpr unsigned half_away = 4;

Coefficient power_of_ten(int exponent) {
  Coefficient power = 1;
  for (; exponent > 0; --exponent) power *= 10;
  return power;
}

/// A number before it is given to either side.
struct Parts {
  bool negative = false;
  Coefficient coefficient = 0;
  int exponent = 0;

  std::string text() const {
    std::string digits;
    for (Coefficient rest = coefficient; rest != 0; rest /= 10)
      digits += static_cast<char>('0' + static_cast<int>(rest % 10));
    if (digits.empty()) digits = "0";
    std::reverse(digits.begin(), digits.end());
    return (negative ? "-" : "") + digits + "e" + std::to_string(exponent);
  }
  Decimal ours() const { return Decimal::parse(text()).value(); }
  BID_UINT128 theirs() const {
    BID_UINT128 bits;
    bits.w[0] = static_cast<std::uint64_t>(coefficient);
    bits.w[1] = static_cast<std::uint64_t>(coefficient >> 64) |
                static_cast<std::uint64_t>(exponent + bias) << 49 |
                static_cast<std::uint64_t>(negative) << 63;
    return bits;
  }
};

/// What Intel's library answered; nothing for an infinity or for what is no number.
std::optional<Parts> parts_of(const BID_UINT128& bits) {
  constexpr std::uint64_t special = 0x7800'0000'0000'0000;
  if ((bits.w[1] & special) == special) return std::nullopt;
  constexpr std::uint64_t coefficient_bits = (std::uint64_t{1} << 49) - 1;
  const auto exponent = static_cast<int>(bits.w[1] >> 49 & 0x3fff) - bias;
  return Parts{bits.w[1] >> 63 != 0, Coefficient{bits.w[1] & coefficient_bits} << 64 | bits.w[0], exponent};
}

bool agree(const std::optional<Decimal>& ours, const BID_UINT128& theirs) {
  const auto parts = parts_of(theirs);
  if (!parts || !ours) return !parts && !ours;
  return *ours == parts->ours();
}

class Numbers {
 public:
  explicit Numbers(std::uint64_t seed) : engine_(seed) {}

  int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }
  bool one_in(int count) { return between(1, count) == 1; }

  Parts any() {
    Parts parts{one_in(2), coefficient(), 0};
    switch (between(0, 7)) {
      case 0:
      case 1:
        break;
      case 2:
        parts.exponent = -2;
        break;
      case 3:
      case 4:
        parts.exponent = between(-36, 3);
        break;
      case 5:
        parts.exponent = between(-80, 80);
        break;
      case 6:
        parts.exponent = between(Decimal::min_exponent, Decimal::max_exponent);
        break;
      default:
        parts.exponent =
            one_in(2) ? Decimal::min_exponent + between(0, 70) : Decimal::max_exponent - between(0, 70);
    }
    return parts;
  }

  /// A second number that often meets the first in its last digits: ties, near ties, cancellation, carries.
  Parts beside(const Parts& first) {
    if (one_in(2)) return any();
    static const std::vector<unsigned> near_ties = {1, 2, 4, 5, 6, 15, 25, 49, 50, 51, 499, 500, 501, 999};
    Parts parts = first;
    parts.negative = one_in(2);
    switch (between(0, 2)) {
      case 0:
        parts.coefficient =
            near_ties[static_cast<std::size_t>(between(0, static_cast<int>(near_ties.size()) - 1))];
        break;
      case 1:
        parts.coefficient = coefficient();
        break;
      default:
        if (parts.coefficient > 2) parts.coefficient -= static_cast<unsigned>(between(0, 2));
    }
    const int offset = one_in(2) ? between(-3, 3) : between(-80, 80);
    parts.exponent = std::clamp(first.exponent + offset, Decimal::min_exponent, Decimal::max_exponent);
    return parts;
  }

  Coefficient coefficient() {
    static const std::vector<int> lengths = {1, 2, 3, 5, 9, 17, 18, 19, 20, 28, 33, 34, 34, 34};
    const int length = lengths[static_cast<std::size_t>(between(0, static_cast<int>(lengths.size()) - 1))];
    const Coefficient limit = power_of_ten(length);
    switch (between(0, 9)) {
      case 0:
        return limit - static_cast<unsigned>(between(1, 3));  // 99...98
      case 1:
        return limit / 10 * static_cast<unsigned>(between(1, 9));  // 70...00
      case 2:
        return limit / 10 + static_cast<unsigned>(between(0, 5));  // 10...05, the last digit odd or even
      case 3:
        return one_in(10) ? 0 : limit / 2;  // 50...00
      default:
        return (Coefficient{engine_()} << 64 | engine_()) % limit;
    }
  }

  /// Up to 60 digits with a point somewhere and often an exponent.
  std::string digits_text() {
    std::string text;
    const int length = between(1, 60);
    for (int i = 0; i < length; ++i) text += static_cast<char>('0' + (one_in(3) ? 0 : between(0, 9)));
    if (one_in(4)) text += "5";
    if (one_in(2))
      text.insert(static_cast<std::size_t>(between(1, static_cast<int>(text.size()))) - 1, 1, '.');
    if (text.back() == '.') text += "0";
    if (one_in(2)) text += "e" + std::to_string(one_in(3) ? between(-6300, 6200) : between(-40, 40));
    return one_in(2) ? "-" + text : text;
  }

 private:
  std::mt19937_64 engine_;
};

unsigned ignored_flags = 0;

/// Intel's quantize has no rounding half down: it is half away from zero, but down for a tie.
BID_UINT128 quantize_half_down(const BID_UINT128& value, const BID_UINT128& unit) {
  const BID_UINT128 down = bid128_quantize(value, unit, toward_zero, &ignored_flags);
  const BID_UINT128 away = bid128_quantize(value, unit, half_away, &ignored_flags);
  const BID_UINT128 cut = bid128_abs(bid128_sub(value, down, half_even, &ignored_flags));
  const BID_UINT128 left = bid128_abs(bid128_sub(away, value, half_even, &ignored_flags));
  return bid128_quiet_equal(cut, left, &ignored_flags) != 0 ? down : away;
}

BID_UINT128 quantize(const Parts& value, const BID_UINT128& unit, Rounding rounding) {
  const auto with = [&](unsigned mode) {
    return bid128_quantize(value.theirs(), unit, mode, &ignored_flags);
  };
  switch (rounding) {
    case Rounding::half_even:
      return with(half_even);
    case Rounding::half_up:
      return with(half_away);
    case Rounding::half_down:
      return quantize_half_down(value.theirs(), unit);
    case Rounding::up:
      return with(value.negative ? toward_negative : toward_positive);
    case Rounding::down:
      return with(toward_zero);
    case Rounding::floor:
      return with(toward_negative);
    case Rounding::ceiling:
      return with(toward_positive);
  }
  throw std::logic_error("no such rounding");
}

bool round_agrees(const Parts& value, Numbers& numbers) {
  const int most = std::min(Decimal::max_exponent - value.exponent, 40);
  const int exponent = value.exponent + numbers.between(std::min(-2, most), most);
  if (exponent < Decimal::min_exponent) return true;
  const auto mode = static_cast<Rounding>(numbers.between(0, 6));
  const auto ours = round(value.ours(), -exponent, mode);
  if (exponent <= value.exponent) return ours == value.ours();
  return agree(ours, quantize(value, Parts{false, 1, exponent}.theirs(), mode));
}

bool compare_agrees(const Parts& a, const Parts& b) {
  const auto order = a.ours() <=> b.ours();
  const bool less = bid128_quiet_less(a.theirs(), b.theirs(), &ignored_flags) != 0;
  const bool equal = bid128_quiet_equal(a.theirs(), b.theirs(), &ignored_flags) != 0;
  return (order < 0) == less && (order == 0) == equal && (a.ours() == b.ours()) == equal;
}

/// Intel's fmod has the sign of the dividend.
bool modulo_agrees(const Parts& a, const Parts& b) {
  BID_UINT128 rest = bid128_fmod(a.theirs(), b.theirs(), &ignored_flags);
  const auto parts = parts_of(rest);
  if (parts && parts->coefficient != 0 && parts->negative != b.negative) {
    rest = bid128_add(rest, b.theirs(), half_even, &ignored_flags);
  }
  return agree(modulo(a.ours(), b.ours()), rest);
}

bool parse_agrees(std::string text) {
  const auto ours = Decimal::parse(text);
  return agree(ours, bid128_from_string(text.data(), half_even, &ignored_flags));
}

/// Within two units of the 34th digit.
bool nearly_agree(const std::optional<Decimal>& ours, const BID_UINT128& theirs) {
  const auto parts = parts_of(theirs);
  if (!parts || !ours) return !parts && !ours;
  Parts unit = *parts;
  for (; unit.coefficient != 0 && unit.coefficient < power_of_ten(33); unit.coefficient *= 10)
    --unit.exponent;
  unit.coefficient = 2;
  unit.negative = false;
  unit.exponent = std::max(unit.exponent, Decimal::min_exponent);
  return subtract(*ours, parts->ours()).value().magnitude() <= unit.ours();
}

TEST_CASE("a million decimal operations agree with Intel's library", "[decimal][intel]") {
  constexpr std::uint64_t seed = 20'260'310;
  constexpr int operations = 1'000'000;
  Numbers numbers(seed);
  int disagreements = 0;
  const auto report = [&](const char* operation, const Parts& a, const Parts& b) {
    if (++disagreements <= 10) FAIL_CHECK(operation << " of " << a.text() << " and " << b.text());
  };
  for (int i = 0; i < operations; ++i) {
    const Parts a = numbers.any();
    const Parts b = numbers.beside(a);
    const auto theirs = [&](auto operation) {
      return operation(a.theirs(), b.theirs(), half_even, &ignored_flags);
    };
    switch (i % 8) {
      case 0:
        if (!agree(add(a.ours(), b.ours()), theirs(bid128_add))) report("sum", a, b);
        break;
      case 1:
        if (!agree(subtract(a.ours(), b.ours()), theirs(bid128_sub))) report("difference", a, b);
        break;
      case 2:
        if (!agree(multiply(a.ours(), b.ours()), theirs(bid128_mul))) report("product", a, b);
        break;
      case 3:
        if (!agree(divide(a.ours(), b.ours()), theirs(bid128_div))) report("quotient", a, b);
        break;
      case 4:
        if (!compare_agrees(a, b)) report("order", a, b);
        break;
      case 5:
        if (!round_agrees(a, numbers)) report("rounding", a, b);
        break;
      case 6:
        if (!modulo_agrees(a, b)) report("modulo", a, b);
        break;
      default:
        const std::string text = numbers.digits_text();
        if (!parse_agrees(text)) report(text.c_str(), a, b);
    }
  }
  CHECK(disagreements == 0);
}

TEST_CASE("square roots agree with Intel's library", "[decimal][intel]") {
  Numbers numbers(34);
  for (int i = 0; i < 50'000; ++i) {
    const Parts value = numbers.any();
    INFO(value.text());
    REQUIRE(agree(square_root(value.ours()), bid128_sqrt(value.theirs(), half_even, &ignored_flags)));
  }
}

TEST_CASE("exponential, logarithm and power agree with Intel's library within two units",
          "[decimal][intel]") {
  Numbers numbers(6176);
  for (int i = 0; i < 5'000; ++i) {
    Parts value = numbers.any();
    INFO(value.text());
    value.negative = false;
    if (value.coefficient != 0) {
      REQUIRE(nearly_agree(logarithm(value.ours()), bid128_log(value.theirs(), half_even, &ignored_flags)));
    }
    const Parts small{numbers.one_in(2), numbers.coefficient() % power_of_ten(20), numbers.between(-40, -16)};
    INFO("exponent " << small.text());
    REQUIRE(nearly_agree(exponential(small.ours()), bid128_exp(small.theirs(), half_even, &ignored_flags)));

    const Parts base{false, numbers.coefficient() % power_of_ten(20) + 1, numbers.between(-40, 0)};
    const Parts exponent{numbers.one_in(2), numbers.coefficient() % power_of_ten(20),
                         numbers.between(-30, -18)};
    INFO("power of " << base.text() << " to " << exponent.text());
    REQUIRE(nearly_agree(power(base.ours(), exponent.ours()),
                         bid128_pow(base.theirs(), exponent.theirs(), half_even, &ignored_flags)));
  }
}

}  // namespace
}  // namespace engine

#endif
