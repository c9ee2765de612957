#include <utility>

#include "engine/calendar.h"
#include "units.h"

namespace engine {

std::optional<Months> add(Months left, Months right) {
  Months sum;
  if (__builtin_add_overflow(left.count, right.count, &sum.count)) return std::nullopt;
  return sum;
}

std::optional<Duration> add(Duration left, Duration right) {
  const std::int64_t nanos = std::int64_t{left.nanos} + right.nanos;
  const std::int64_t carried = nanos / detail::nanos_per_second;
  Duration sum;
  sum.nanos = static_cast<std::int32_t>(nanos % detail::nanos_per_second);
  // Carried into the negative side first, so that only a sum that does not fit overflows.
  if (left.seconds > right.seconds) std::swap(left, right);
  if (left.seconds < 0) {
    left.seconds += carried;
  } else if (__builtin_add_overflow(right.seconds, carried, &right.seconds)) {
    return std::nullopt;
  }
  if (__builtin_add_overflow(left.seconds, right.seconds, &sum.seconds)) return std::nullopt;
  return sum;
}

std::optional<Months> negated(Months months) {
  Months result;
  if (__builtin_sub_overflow(std::int64_t{0}, months.count, &result.count)) return std::nullopt;
  return result;
}

std::optional<Duration> negated(Duration duration) {
  Duration result;
  if (duration.nanos != 0) {
    result.nanos = static_cast<std::int32_t>(detail::nanos_per_second) - duration.nanos;
    result.seconds = -1 - duration.seconds;
    return result;
  }
  if (__builtin_sub_overflow(std::int64_t{0}, duration.seconds, &result.seconds)) return std::nullopt;
  return result;
}

}  // namespace engine
