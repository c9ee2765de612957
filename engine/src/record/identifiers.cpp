// Check digits of people's numbers. A right one proves only that nothing was mistyped.

#include <algorithm>
#include <array>

#include "engine/record.h"

namespace engine {

namespace {

constexpr std::size_t nhs_length = 10;

}  // namespace

bool is_nhs_number(std::string_view digits) {
  std::array<int, nhs_length> number{};
  std::size_t count = 0;
  for (const char c : digits) {
    if (c == ' ' || c == '-') continue;
    if (c < '0' || c > '9' || count == nhs_length) return false;
    number[count++] = c - '0';
  }
  if (count != nhs_length) return false;
  if (std::all_of(number.begin(), number.end(), [&](int digit) { return digit == number[0]; })) return false;
  int sum = 0;
  for (std::size_t i = 0; i + 1 < nhs_length; ++i) sum += number[i] * static_cast<int>(nhs_length - i);
  // 11 stands for the check digit 0; 10 is no digit, and such numbers are not issued.
  return (11 - sum % 11) % 11 == number[nhs_length - 1];
}

}  // namespace engine
