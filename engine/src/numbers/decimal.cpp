// Reading and writing decimals, comparing them, and turning them into whole numbers.

#include "engine/decimal.h"

#include <algorithm>

#include "numbers/decimal_parts.h"

namespace engine {
namespace {

bool is_digit(char character) {
  return character >= '0' && character <= '9';
}

/// Digits as they are read: 38 of them are kept, of the others only how many and whether all are zero.
struct DigitReader {
  Uint128 coefficient = 0;
  std::int64_t exponent = 0;
  bool more = false;

  void take(char character, bool after_point) {
    constexpr Uint128 full = power_of_ten(37);
    if (coefficient < full) {
      coefficient = coefficient * 10 + static_cast<unsigned>(character - '0');
      exponent -= after_point ? 1 : 0;
    } else {
      more |= character != '0';
      exponent += after_point ? 0 : 1;
    }
  }

  /// Takes the digits at the front of `text` and removes them from it; gives how many there were.
  std::size_t take_all(std::string_view& text, bool after_point) {
    std::size_t count = 0;
    for (; count < text.size() && is_digit(text[count]); ++count) take(text[count], after_point);
    text.remove_prefix(count);
    return count;
  }
};

/// Reads `digits` or `digits.digits` of at most 18 characters, which needs no rounding. No value for anything
/// else.
std::optional<Decimal> parse_short(std::string_view text, bool negative) {
  constexpr std::size_t longest = 18;
  if (text.empty() || text.size() > longest || !is_digit(text.front()) || !is_digit(text.back()))
    return std::nullopt;
  std::int64_t coefficient = 0;
  int exponent = 0;
  bool after_point = false;
  for (const char character : text) {
    if (is_digit(character)) {
      coefficient = coefficient * 10 + (character - '0');
      exponent -= after_point ? 1 : 0;
    } else if (character == '.' && !after_point) {
      after_point = true;
    } else {
      return std::nullopt;
    }
  }
  for (; exponent < 0 && coefficient % 10 == 0; ++exponent) coefficient /= 10;
  return Decimal::of(negative ? -coefficient : coefficient, exponent);
}

/// Reads `e[+|-]digits` or nothing.
std::optional<std::int64_t> read_exponent(std::string_view text) {
  constexpr std::int64_t beyond_any_text = 1'000'000'000'000'000;
  if (text.empty()) return 0;
  if (text[0] != 'e' && text[0] != 'E') return std::nullopt;
  text.remove_prefix(1);
  const bool negative = !text.empty() && text[0] == '-';
  if (negative || (!text.empty() && text[0] == '+')) text.remove_prefix(1);
  if (text.empty() || !std::all_of(text.begin(), text.end(), is_digit)) return std::nullopt;
  std::int64_t exponent = 0;
  for (const char character : text) exponent = std::min(exponent * 10 + (character - '0'), beyond_any_text);
  return negative ? -exponent : exponent;
}

std::string digits_of(Uint128 value) {
  char buffer[40];
  char* const end = buffer + sizeof buffer;
  char* start = end;
  constexpr Uint128 chunk = power_of_ten(19);
  while (high_half(value) != 0) {
    std::uint64_t part = low_half(value % chunk);
    value /= chunk;
    for (int i = 0; i < 19; ++i, part /= 10) *--start = static_cast<char>('0' + part % 10);
  }
  for (std::uint64_t part = low_half(value); part != 0 || start == end; part /= 10) {
    *--start = static_cast<char>('0' + part % 10);
  }
  return {start, end};
}

/// Orders the magnitudes of two numbers that are not zero.
std::strong_ordering compare_magnitudes(const DecimalParts& a, const DecimalParts& b) {
  const int a_top = digit_count(a.coefficient) + a.exponent;
  const int b_top = digit_count(b.coefficient) + b.exponent;
  if (a_top != b_top) return a_top <=> b_top;
  // The exponents differ by no more than the digits do, so the aligned coefficients still have 34 digits at
  // most.
  const int lower = std::min(a.exponent, b.exponent);
  const Uint128 a_aligned = a.coefficient * power_of_ten(a.exponent - lower);
  const Uint128 b_aligned = b.coefficient * power_of_ten(b.exponent - lower);
  if (a_aligned == b_aligned) return std::strong_ordering::equal;
  return a_aligned < b_aligned ? std::strong_ordering::less : std::strong_ordering::greater;
}

}  // namespace

std::optional<Decimal> Decimal::parse(std::string_view text) {
  const bool negative = !text.empty() && text[0] == '-';
  if (negative) text.remove_prefix(1);
  if (const auto number = parse_short(text, negative)) return number;
  DigitReader reader;
  const std::size_t before_point = reader.take_all(text, false);
  std::size_t after_point = 0;
  if (!text.empty() && text[0] == '.') {
    text.remove_prefix(1);
    after_point = reader.take_all(text, true);
    if (after_point == 0) return std::nullopt;
  }
  if (before_point + after_point == 0) return std::nullopt;
  const auto written = read_exponent(text);
  if (!written) return std::nullopt;
  constexpr std::int64_t out_of_range = 100'000;
  const std::int64_t exponent = std::clamp(*written + reader.exponent, -out_of_range, out_of_range);
  return simplified(rounded(negative, reader.coefficient, static_cast<int>(exponent), reader.more));
}

std::string Decimal::text() const {
  if (is_zero()) return "0";
  const auto parts = DecimalParts::of(*this);
  std::string digits_text = digits_of(parts.coefficient);
  if (exponent_ > 0) {
    digits_text.append(static_cast<std::size_t>(exponent_), '0');
  } else if (exponent_ < 0) {
    const auto places = static_cast<std::size_t>(-exponent_);
    if (digits_text.size() <= places) digits_text.insert(0, places + 1 - digits_text.size(), '0');
    digits_text.insert(digits_text.size() - places, 1, '.');
    digits_text.erase(digits_text.find_last_not_of('0') + 1);
    if (digits_text.back() == '.') digits_text.pop_back();
  }
  return negative_ ? "-" + digits_text : digits_text;
}

std::optional<std::int64_t> Decimal::aligned_to(const Decimal& lower) const {
  const int zeros = exponent_ - lower.exponent_;
  constexpr int most_zeros = 18;
  if (zeros < 0 || zeros > most_zeros || !both_fit_int64(*this, lower)) return std::nullopt;
  const auto power = static_cast<std::int64_t>(small_powers_of_ten[static_cast<std::size_t>(zeros)]);
  std::int64_t aligned = 0;
  if (__builtin_mul_overflow(small_coefficient(), power, &aligned)) return std::nullopt;
  return aligned;
}

std::strong_ordering Decimal::compare(const Decimal& a, const Decimal& b) {
  if (const auto aligned = a.aligned_to(b)) return *aligned <=> b.small_coefficient();
  if (const auto aligned = b.aligned_to(a)) return a.small_coefficient() <=> *aligned;
  if (a.is_zero() || b.is_zero() || a.negative_ != b.negative_) {
    const auto sign = [](const Decimal& value) { return value.is_zero() ? 0 : value.negative_ ? -1 : 1; };
    return sign(a) <=> sign(b);
  }
  const auto left = DecimalParts::of(a);
  const auto right = DecimalParts::of(b);
  return a.negative_ ? compare_magnitudes(right, left) : compare_magnitudes(left, right);
}

bool Decimal::is_integer() const {
  if (exponent_ >= 0 || is_zero()) return true;
  if (-exponent_ >= digits) return false;
  return DecimalParts::of(*this).coefficient % power_of_ten(-exponent_) == 0;
}

std::optional<std::int64_t> Decimal::to_int64() const {
  return is_integer() ? truncated_to_int64() : std::nullopt;
}

std::optional<std::int64_t> Decimal::truncated_to_int64() const {
  const auto parts = DecimalParts::of(*this);
  Uint128 whole = parts.coefficient;
  if (exponent_ < 0) {
    whole = -exponent_ >= digits ? 0 : whole / power_of_ten(-exponent_);
  } else if (whole != 0) {
    constexpr int most_digits_of_int64 = 19;
    if (digit_count(whole) + exponent_ > most_digits_of_int64) return std::nullopt;
    whole *= power_of_ten(exponent_);
  }
  const Uint128 limit = Uint128{static_cast<std::uint64_t>(INT64_MAX)} + (negative_ ? 1 : 0);
  if (whole > limit) return std::nullopt;
  const std::uint64_t word = low_half(whole);
  return static_cast<std::int64_t>(negative_ ? 0 - word : word);
}

}  // namespace engine
