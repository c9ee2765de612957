// Reads a text from the left, one piece at a time, and writes numbers of a set width.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace engine::detail {

class TextReader {
 public:
  explicit TextReader(std::string_view text) : rest_(text) {}

  bool at_end() const { return rest_.empty(); }
  char next() const { return rest_.empty() ? '\0' : rest_.front(); }
  std::string_view rest() const { return rest_; }

  /// Takes `wanted` when it comes next.
  bool take(char wanted) {
    if (rest_.empty() || rest_.front() != wanted) return false;
    rest_.remove_prefix(1);
    return true;
  }

  /// Takes all digits that come next; there may be none.
  std::string_view take_digits() {
    std::size_t count = 0;
    while (count < rest_.size() && rest_[count] >= '0' && rest_[count] <= '9') ++count;
    const std::string_view digits = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return digits;
  }

  /// Exactly two digits, no third behind them.
  std::optional<int> take_two_digits() {
    const std::string_view digits = take_digits();
    if (digits.size() != 2) return std::nullopt;
    return (digits[0] - '0') * 10 + (digits[1] - '0');
  }

 private:
  std::string_view rest_;
};

/// The value of decimal digits; no value when it does not fit. No digits are 0.
std::optional<std::int64_t> number_of(std::string_view digits);

/// The digits after the point as nanoseconds; those beyond the ninth are cut.
std::int32_t nanos_of_fraction(std::string_view digits);

/// At least `width` digits, zeros in front.
void append_number(std::string& text, std::uint64_t number, std::size_t width = 1);

/// `.` and up to nine digits without trailing zeros; nothing for 0.
void append_fraction(std::string& text, std::int64_t nanos);

}  // namespace engine::detail
