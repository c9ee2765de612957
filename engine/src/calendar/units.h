// The whole numbers that the calendar is made of, and division that rounds down, which C++ does not have.

#pragma once

#include <cstdint>

namespace engine::detail {

inline constexpr std::int64_t seconds_per_day = 86'400;
inline constexpr std::int64_t nanos_per_second = 1'000'000'000;
inline constexpr std::int64_t nanos_per_day = seconds_per_day * nanos_per_second;

struct Divided {
  std::int64_t quotient;
  std::int64_t remainder;  ///< Never negative.
};

/// `divisor` is positive.
constexpr Divided divide_down(std::int64_t value, std::int64_t divisor) {
  std::int64_t quotient = value / divisor;
  std::int64_t remainder = value % divisor;
  if (remainder < 0) {
    --quotient;
    remainder += divisor;
  }
  return {quotient, remainder};
}

}  // namespace engine::detail
