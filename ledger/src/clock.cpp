#include "ledger/clock.h"

#include <array>
#include <cstdio>

namespace ledger {

std::string text_of(Instant instant) {
  constexpr std::int64_t day = 86'400'000;
  std::int64_t days = instant.milliseconds / day;
  std::int64_t rest = instant.milliseconds % day;
  if (rest < 0) {
    rest += day;
    --days;
  }
  std::array<char, 16> time{};
  std::snprintf(time.data(), time.size(), "T%02d:%02d:%02d.%03dZ", static_cast<int>(rest / 3'600'000 % 24),
                static_cast<int>(rest / 60'000 % 60), static_cast<int>(rest / 1'000 % 60),
                static_cast<int>(rest % 1'000));
  return engine::text_of(engine::date_from_days(days).value_or(engine::Date{})) + time.data();
}

}  // namespace ledger
