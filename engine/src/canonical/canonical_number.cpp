// Numbers as ECMAScript prints them: ECMA-262, 6.1.6.1.20 Number::toString, which RFC 8785, 3.2.2.3 asks for.

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include "canonical/canonical_parts.h"

namespace engine {

namespace {

constexpr std::int64_t largest_exact = std::int64_t{1} << 53;

/// value = 0.d1d2d3... x 10^point, without zeros at the end.
struct Digits {
  std::array<char, 32> text{};
  int count = 0;
  int point = 0;
};

Digits shortest_digits(double positive) {
  std::array<char, 32> scientific{};
  const auto end = std::to_chars(scientific.data(), scientific.data() + scientific.size(), positive,
                                 std::chars_format::scientific)
                       .ptr;
  const std::string_view text(scientific.data(), static_cast<std::size_t>(end - scientific.data()));
  const std::size_t e = text.find('e');
  Digits digits;
  for (const char c : text.substr(0, e)) {
    if (c != '.') digits.text[static_cast<std::size_t>(digits.count++)] = c;
  }
  int exponent = 0;
  const std::size_t sign = text[e + 1] == '+' ? 2 : 1;  // from_chars reads no plus sign
  std::from_chars(text.data() + e + sign, text.data() + text.size(), exponent);
  digits.point = exponent + 1;
  return digits;
}

void append_with_exponent(std::string& out, std::string_view digits, int exponent) {
  out += digits.front();
  if (digits.size() > 1) out.append(".").append(digits.substr(1));
  out.append(exponent < 0 ? "e-" : "e+").append(std::to_string(exponent < 0 ? -exponent : exponent));
}

// The four branches are those of Number::toString, steps 6 to 10; `point` is its n, the number of digits its
// k.
void append_positive(std::string& out, double value) {
  const Digits shortest = shortest_digits(value);
  const std::string_view digits(shortest.text.data(), static_cast<std::size_t>(shortest.count));
  const int point = shortest.point;
  if (point > 21 || point <= -6) {
    append_with_exponent(out, digits, point - 1);
  } else if (point <= 0) {
    out.append("0.").append(static_cast<std::size_t>(-point), '0').append(digits);
  } else if (shortest.count <= point) {
    out.append(digits).append(static_cast<std::size_t>(point - shortest.count), '0');
  } else {
    const auto whole = static_cast<std::size_t>(point);
    out.append(digits.substr(0, whole)).append(".").append(digits.substr(whole));
  }
}

template <class Whole>
void append_exact(std::string& out, Whole value) {
  std::array<char, 24> text{};
  out.append(text.data(), std::to_chars(text.data(), text.data() + text.size(), value).ptr);
}

}  // namespace

void append_json_number(std::string& out, double value) {
  if (value == 0) {  // minus zero too
    out += '0';
    return;
  }
  if (std::signbit(value)) out += '-';
  append_positive(out, std::fabs(value));
}

void append_json_number(std::string& out, std::int64_t value) {
  if (value > largest_exact || value < -largest_exact)
    return append_json_number(out, static_cast<double>(value));
  append_exact(out, value);
}

void append_json_number(std::string& out, std::uint64_t value) {
  if (value > std::uint64_t{largest_exact}) return append_json_number(out, static_cast<double>(value));
  append_exact(out, value);
}

}  // namespace engine
