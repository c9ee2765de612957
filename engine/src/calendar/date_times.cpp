// A date with a time of the day: the time line.

#include "engine/calendar.h"
#include "units.h"
#include "zones.h"

namespace engine {
namespace {

bool is_local(const DateTime& value) {
  return value.time.zone.kind == Zone::Kind::none;
}

/// What the clock shows, counted from 1970-01-01T00:00:00 on the same clock.
Duration on_the_clock(const DateTime& value) {
  const auto [second, nanos] = detail::divide_down(value.time.nanos_of_day, detail::nanos_per_second);
  return {days_since_epoch(value.date) * detail::seconds_per_day + second, static_cast<std::int32_t>(nanos)};
}

std::optional<DateTime> from_the_clock(const Duration& shown, const Zone& zone) {
  const auto [days, second] = detail::divide_down(shown.seconds, detail::seconds_per_day);
  const auto date = date_from_days(days);
  if (!date) return std::nullopt;
  return DateTime{*date, {second * detail::nanos_per_second + shown.nanos, zone}};
}

std::optional<std::int32_t> offset_seconds(const DateTime& value) {
  return detail::offset_at_local(value.time.zone, days_since_epoch(value.date),
                                 value.time.nanos_of_day / detail::nanos_per_second);
}

/// Both counted so that they can be compared: on their clocks when both are local, else from 1970 in UTC. No
/// value when one is local and the other zoned.
struct Comparable {
  Duration left, right;
};
std::optional<Comparable> comparable(const DateTime& left, const DateTime& right) {
  Comparable both{on_the_clock(left), on_the_clock(right)};
  if (is_local(left) && is_local(right)) return both;
  const auto left_offset = offset_seconds(left);
  const auto right_offset = offset_seconds(right);
  if (!left_offset || !right_offset) return std::nullopt;
  both.left.seconds -= *left_offset;
  both.right.seconds -= *right_offset;
  return both;
}

}  // namespace

std::optional<DateTime> add(const DateTime& value, Months months) {
  const auto date = add(value.date, months);
  if (!date) return std::nullopt;
  return DateTime{*date, value.time};
}

std::optional<DateTime> add(const DateTime& value, Duration duration) {
  auto sum = add(on_the_clock(value), duration);
  if (!sum) return std::nullopt;
  if (value.time.zone.kind == Zone::Kind::named) {
    const auto before = offset_seconds(value);
    if (!before || __builtin_sub_overflow(sum->seconds, *before, &sum->seconds)) return std::nullopt;
    const auto after = detail::offset_at_instant(value.time.zone, sum->seconds);
    if (!after || __builtin_add_overflow(sum->seconds, *after, &sum->seconds)) return std::nullopt;
  }
  return from_the_clock(*sum, value.time.zone);
}

std::optional<Duration> between(const DateTime& from, const DateTime& to) {
  const auto both = comparable(to, from);
  if (!both) return std::nullopt;
  const auto back = negated(both->right);
  return back ? add(both->left, *back) : std::nullopt;
}

std::partial_ordering compare(const DateTime& left, const DateTime& right) {
  const auto both = comparable(left, right);
  if (!both) return std::partial_ordering::unordered;
  return both->left <=> both->right;
}

bool equal(const DateTime& left, const DateTime& right) {
  const auto both = comparable(left, right);
  return both && both->left.seconds == both->right.seconds;
}

bool same_fields(const DateTime& left, const DateTime& right) {
  return left.date == right.date && same_fields(left.time, right.time);
}

std::optional<Duration> offset_of(const DateTime& value) {
  const auto offset = offset_seconds(value);
  if (!offset) return std::nullopt;
  return Duration{*offset, 0};
}

}  // namespace engine
