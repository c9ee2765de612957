#include "ledger/clock.h"

namespace ledger {

namespace {

/// `mark` and `number` in so many digits.
void append(std::string& text, char mark, std::int64_t number, std::size_t digits) {
  const std::string written = std::to_string(number);
  text += mark + std::string(digits - written.size(), '0') + written;
}

}  // namespace

std::string text_of(Instant instant) {
  constexpr std::int64_t day = 86'400'000;
  std::int64_t days = instant.milliseconds / day;
  std::int64_t rest = instant.milliseconds % day;
  if (rest < 0) {
    rest += day;
    --days;
  }
  std::string text = engine::text_of(engine::date_from_days(days).value_or(engine::Date{}));
  append(text, 'T', rest / 3'600'000, 2);
  append(text, ':', rest / 60'000 % 60, 2);
  append(text, ':', rest / 1'000 % 60, 2);
  append(text, '.', rest % 1'000, 3);
  return text + 'Z';
}

}  // namespace ledger
