// Times of the day, which have no date.

#include "engine/calendar.h"
#include "units.h"
#include "zones.h"

namespace engine {

std::optional<Time> make_time(std::int64_t hour, std::int64_t minute, std::int64_t second, std::int64_t nanos,
                              const Zone& zone) {
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59) return std::nullopt;
  if (nanos < 0 || nanos >= detail::nanos_per_second) return std::nullopt;
  return Time{((hour * 60 + minute) * 60 + second) * detail::nanos_per_second + nanos, zone};
}

Time add(const Time& time, Duration duration) {
  const std::int64_t shift =
      detail::divide_down(duration.seconds, detail::seconds_per_day).remainder * detail::nanos_per_second +
      duration.nanos;
  return {(time.nanos_of_day + shift) % detail::nanos_per_day, time.zone};
}

namespace {

/// Nanoseconds from one to the other, both taken on the same day; no value when one is local and the other
/// zoned.
std::optional<std::int64_t> nanos_between(const Time& from, const Time& to) {
  const std::int64_t of_fields = to.nanos_of_day - from.nanos_of_day;
  if (from.zone.kind == Zone::Kind::none && to.zone.kind == Zone::Kind::none) return of_fields;
  const auto from_offset = detail::standard_offset(from.zone);
  const auto to_offset = detail::standard_offset(to.zone);
  if (!from_offset || !to_offset) return std::nullopt;
  return of_fields - (std::int64_t{*to_offset} - *from_offset) * detail::nanos_per_second;
}

Time whole_seconds(Time time) {
  time.nanos_of_day -= time.nanos_of_day % detail::nanos_per_second;
  return time;
}

bool same_zone(const Zone& left, const Zone& right) {
  if (left.kind != right.kind) return false;
  if (left.kind == Zone::Kind::offset) return left.offset_seconds == right.offset_seconds;
  return left.kind == Zone::Kind::none || left.name == right.name;
}

}  // namespace

std::optional<Duration> between(const Time& from, const Time& to) {
  const auto nanos = nanos_between(from, to);
  if (!nanos) return std::nullopt;
  const auto [seconds, rest] = detail::divide_down(*nanos, detail::nanos_per_second);
  return Duration{seconds, static_cast<std::int32_t>(rest)};
}

std::partial_ordering compare(const Time& left, const Time& right) {
  const auto nanos = nanos_between(right, left);
  if (!nanos) return std::partial_ordering::unordered;
  return *nanos <=> 0;
}

bool equal(const Time& left, const Time& right) {
  return nanos_between(whole_seconds(left), whole_seconds(right)) == 0;
}

bool same_fields(const Time& left, const Time& right) {
  return left.nanos_of_day == right.nanos_of_day && same_zone(left.zone, right.zone);
}

std::optional<Duration> offset_of(const Time& time) {
  const auto offset = detail::standard_offset(time.zone);
  if (!offset) return std::nullopt;
  return Duration{*offset, 0};
}

}  // namespace engine
