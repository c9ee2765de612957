#include "zones.h"

#include <date/tz.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <exception>
#include <type_traits>

#include "units.h"

namespace engine {
namespace {

using std::chrono::seconds;

/// The last year for which the zone files list each change of the clocks. Later ones follow a rule that the
/// date library does not read: it would leave Melbourne in summer time for ever.
constexpr std::int32_t last_listed_year = 2037;

/// No zone changed its clocks before this year; until then each kept its own mean time.
constexpr std::int32_t first_listed_year = 1800;

/// The rules in use name a weekday of a month, as in "last Sunday of March", so a day beyond the listed years
/// is looked up on the same day of a listed year in which it falls on the same weekday. A leap year is such a
/// year up to February, and another from March.
Date listed_date(Date date) {
  constexpr std::array<std::int32_t, 7> common_year_starting_on = {2029, 2030, 2031, 2037, 2027, 2033, 2034};
  if (date.month == 2 && date.day == 29) date.day = 28;  // or it would be taken for a 1 March
  const int days_into_common_year = day_of_year({2027, date.month, date.day}) - 1;
  const int first_weekday = (weekday(date) - 1 + 7 * 53 - days_into_common_year) % 7;
  date.year = common_year_starting_on[static_cast<std::size_t>(first_weekday)];
  return date;
}

/// The day to look up in place of `days`, for which the zone files say what holds on `days`.
std::int64_t listed_day(std::int64_t days) {
  constexpr std::int64_t first = days_since_epoch({first_listed_year, 1, 1});
  constexpr std::int64_t last = days_since_epoch({last_listed_year, 12, 31});
  if (days <= last) return std::max(days, first);
  const auto date = date_from_days(days);
  return date ? days_since_epoch(listed_date(*date)) : last;
}

/// Null when the database has no such zone or cannot be read.
const date::time_zone* find_zone(std::string_view name) noexcept {
  // `localtime` is the setting of the machine: the same text would mean another time elsewhere.
  if (name == "localtime") return nullptr;
  try {
    return date::locate_zone(name);
  } catch (const std::exception&) {
    return nullptr;
  }
}

template <class Clock>
std::optional<std::int32_t> look_up(std::string_view name, std::int64_t days,
                                    std::int64_t second_of_day) noexcept {
  const date::time_zone* zone = find_zone(name);
  if (zone == nullptr) return std::nullopt;
  const std::chrono::time_point<Clock, seconds> at{
      seconds{listed_day(days) * detail::seconds_per_day + second_of_day}};
  try {
    const auto info = zone->get_info(at);
    if constexpr (std::is_same_v<Clock, date::local_t>) {
      return static_cast<std::int32_t>(info.first.offset.count());
    } else {
      return static_cast<std::int32_t>(info.offset.count());
    }
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

}  // namespace

std::optional<Zone> offset_zone(std::int64_t seconds_east) {
  constexpr std::int64_t most = 18 * 3'600;
  if (seconds_east < -most || seconds_east > most) return std::nullopt;
  return Zone{Zone::Kind::offset, static_cast<std::int32_t>(seconds_east), {}};
}

std::optional<Zone> named_zone(std::string_view name) {
  // Looked up once here, so that a zone whose file is damaged is refused where it is read.
  const date::time_zone* zone = find_zone(name);
  if (zone == nullptr || !look_up<std::chrono::system_clock>(name, 0, 0)) return std::nullopt;
  return Zone{Zone::Kind::named, 0, zone->name()};
}

namespace detail {

std::optional<std::int32_t> offset_at_local(const Zone& zone, std::int64_t days, std::int64_t second_of_day) {
  if (zone.kind == Zone::Kind::none) return std::nullopt;
  if (zone.kind == Zone::Kind::offset) return zone.offset_seconds;
  return look_up<date::local_t>(zone.name, days, second_of_day);
}

std::optional<std::int32_t> offset_at_instant(const Zone& zone, std::int64_t seconds) {
  if (zone.kind == Zone::Kind::none) return std::nullopt;
  if (zone.kind == Zone::Kind::offset) return zone.offset_seconds;
  const auto [days, second_of_day] = divide_down(seconds, seconds_per_day);
  return look_up<std::chrono::system_clock>(zone.name, days, second_of_day);
}

std::optional<std::int32_t> standard_offset(const Zone& zone) {
  const auto january = offset_at_local(zone, days_since_epoch({2026, 1, 1}), 0);
  const auto july = offset_at_local(zone, days_since_epoch({2026, 7, 1}), 0);
  if (!january || !july) return std::nullopt;
  return std::min(*january, *july);
}

}  // namespace detail
}  // namespace engine
