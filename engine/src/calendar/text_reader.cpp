#include "text_reader.h"

namespace engine::detail {

std::optional<std::int64_t> number_of(std::string_view digits) {
  std::int64_t number = 0;
  for (const char digit : digits) {
    if (__builtin_mul_overflow(number, std::int64_t{10}, &number)) return std::nullopt;
    if (__builtin_add_overflow(number, std::int64_t{digit - '0'}, &number)) return std::nullopt;
  }
  return number;
}

std::int32_t nanos_of_fraction(std::string_view digits) {
  std::int32_t nanos = 0;
  for (std::size_t place = 0; place < 9; ++place) {
    nanos = nanos * 10 + (place < digits.size() ? digits[place] - '0' : 0);
  }
  return nanos;
}

void append_number(std::string& text, std::uint64_t number, std::size_t width) {
  const std::string digits = std::to_string(number);
  if (digits.size() < width) text.append(width - digits.size(), '0');
  text += digits;
}

void append_fraction(std::string& text, std::int64_t nanos) {
  if (nanos == 0) return;
  text += '.';
  append_number(text, static_cast<std::uint64_t>(nanos), 9);
  text.erase(text.find_last_not_of('0') + 1);
}

}  // namespace engine::detail
