// Dates, times, both kinds of duration, and the arithmetic between them.
//
// Source: DMN 1.5, 10.3.2.3 (FEEL date and time types), XML Schema Part 2 (lexical forms), ISO 8601 (weeks).
// Proleptic Gregorian calendar, years -999999999 to 999999999. All types are plain values, copied bit by bit.
// Operations that leave that range, or mix local and zoned time, give no value. Nothing here throws.
//
// Months rule: add the months; where the day does not exist in the resulting month, take that month's last
// day (2024-02-29 + 1 year = 2025-02-28). It is not associative: always add once, from the anchor date.
//
// What is counted for every patient and every row is defined here, so that the compiler can put it in place.

#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace engine {

struct Date {
  std::int32_t year = 1970;
  std::uint8_t month = 1;  ///< 1 to 12.
  std::uint8_t day = 1;    ///< 1 to the length of the month.
  friend constexpr auto operator<=>(const Date&, const Date&) = default;
};

/// FEEL `years and months duration`: a signed count of months.
struct Months {
  std::int64_t count = 0;
  friend constexpr auto operator<=>(const Months&, const Months&) = default;
};

/// FEEL `days and time duration`: whole seconds, floored, and 0 to 999,999,999 nanoseconds on top of them.
struct Duration {
  std::int64_t seconds = 0;
  std::int32_t nanos = 0;
  friend constexpr auto operator<=>(const Duration&, const Duration&) = default;
};

/// Where a time is local. `Z` is the offset 0.
struct Zone {
  enum class Kind : std::uint8_t { none, offset, named };
  Kind kind = Kind::none;
  std::int32_t offset_seconds = 0;  ///< East of UTC, at most 18 hours either way. Only for `offset`.
  std::string_view name;            ///< IANA name, in static storage of the zone database. Only for `named`.
};

struct Time {
  std::int64_t nanos_of_day = 0;  ///< 0 to 86,399,999,999,999.
  Zone zone;
};

struct DateTime {
  Date date;
  Time time;
};

// --- text -------------------------------------------------------------------------------------------------

/// `[-]YYYY-MM-DD`, four to nine year digits, no leading `+`, no leading zero beyond four digits, a day that
/// exists.
std::optional<Date> parse_date(std::string_view text);
/// `hh:mm:ss[.f...]` with optional `Z`, `+hh:mm[:ss]` or `@Zone/Id`. Digits beyond nanoseconds are cut.
/// `24:00:00` is 00:00:00, as in XML Schema.
std::optional<Time> parse_time(std::string_view text);
/// `date T time`, or a bare date (00:00:00 local). `24:00:00` is the next day's 00:00:00.
std::optional<DateTime> parse_date_time(std::string_view text);
/// `[-]PnYnM` or `[-]PnDTnHnMnS`; never a mixture, never weeks, at least one part. Only the seconds may have
/// a fraction; digits beyond nanoseconds are cut.
std::optional<std::variant<Months, Duration>> parse_duration(std::string_view text);

std::string text_of(const Date&);
std::string text_of(const Time&);
std::string text_of(const DateTime&);
std::string text_of(const Months&);    ///< Normalised: `P2Y2M`, zero is `P0M`.
std::string text_of(const Duration&);  ///< Normalised: `P1DT2H3M4.5S`, zero is `PT0S`.

// --- construction -----------------------------------------------------------------------------------------

inline constexpr std::int64_t last_year = 999'999'999;  ///< The first is its negative.

constexpr bool is_leap_year(std::int64_t year) {
  return year % (year % 25 == 0 ? 16 : 4) == 0;
}

/// 0 when there is no such month.
constexpr int days_in_month(std::int64_t year, int month) {
  if (month < 1 || month > 12) return 0;
  if (month == 2) return is_leap_year(year) ? 29 : 28;
  return 30 | ((month ^ (month >> 3)) & 1);  // 31 in the odd months up to July, in the even ones from August
}

constexpr std::optional<Date> make_date(std::int64_t year, std::int64_t month, std::int64_t day) {
  if (year < -last_year || year > last_year || month < 1 || month > 12) return std::nullopt;
  if (day < 1 || day > days_in_month(year, static_cast<int>(month))) return std::nullopt;
  return Date{static_cast<std::int32_t>(year), static_cast<std::uint8_t>(month),
              static_cast<std::uint8_t>(day)};
}

namespace detail {
// Days are counted in years that begin on 1 March, so that the leap day comes last, from the year
// -1,000,000,000, so that nothing is negative. A thousand million years are whole cycles of 400 years, each
// of 146,097 days. Source: Howard Hinnant, "chrono-Compatible Low-Level Date Algorithms", days_from_civil and
// civil_from_days.
inline constexpr std::int64_t years_shifted = 1'000'000'000;
inline constexpr std::int64_t days_shifted = years_shifted / 400 * 146'097 + 719'468;
}  // namespace detail

/// Days since 1970-01-01.
constexpr std::int64_t days_since_epoch(const Date& date) {
  const auto early = static_cast<std::uint64_t>(date.month <= 2);
  const auto year = static_cast<std::uint64_t>(date.year + detail::years_shifted) - early;
  const auto month_from_march = date.month + 12 * early - 3;
  const auto day_of_year = (153 * month_from_march + 2) / 5 + date.day - 1;
  return static_cast<std::int64_t>(year * 365 + year / 4 - year / 100 + year / 400 + day_of_year) -
         detail::days_shifted;
}

constexpr std::optional<Date> date_from_days(std::int64_t days) {
  constexpr auto first = days_since_epoch({-static_cast<std::int32_t>(last_year), 1, 1});
  constexpr auto last = days_since_epoch({static_cast<std::int32_t>(last_year), 12, 31});
  if (days < first || days > last) return std::nullopt;
  const auto shifted = static_cast<std::uint64_t>(days + detail::days_shifted);
  const auto day_of_cycle = shifted % 146'097;
  const auto year_of_cycle =
      (day_of_cycle - day_of_cycle / 1'460 + day_of_cycle / 36'524 - day_of_cycle / 146'096) / 365;
  const auto day_of_year = day_of_cycle - (365 * year_of_cycle + year_of_cycle / 4 - year_of_cycle / 100);
  const auto month_from_march = (5 * day_of_year + 2) / 153;
  const auto day = day_of_year - (153 * month_from_march + 2) / 5 + 1;
  const auto month = month_from_march < 10 ? month_from_march + 3 : month_from_march - 9;
  const auto year = static_cast<std::int64_t>(shifted / 146'097 * 400 + year_of_cycle + (month <= 2 ? 1 : 0));
  return Date{static_cast<std::int32_t>(year - detail::years_shifted), static_cast<std::uint8_t>(month),
              static_cast<std::uint8_t>(day)};
}

/// Hour 0 to 23, minute and second 0 to 59, nanos 0 to 999,999,999; else no value.
std::optional<Time> make_time(std::int64_t hour, std::int64_t minute, std::int64_t second, std::int64_t nanos,
                              const Zone& zone);
/// No value beyond 18 hours.
std::optional<Zone> offset_zone(std::int64_t seconds_east);
/// Looks the zone up in the IANA database, letter by letter. No value when unknown.
std::optional<Zone> named_zone(std::string_view name);

// --- arithmetic -------------------------------------------------------------------------------------------

constexpr std::optional<Date> add(const Date& date, Months months) {
  constexpr std::int64_t longest = 2 * 12 * (last_year + 1);
  if (months.count < -longest || months.count > longest) return std::nullopt;
  const std::int64_t from_first = (date.year + detail::years_shifted) * 12 + date.month - 1 + months.count;
  const std::int64_t year = (from_first + longest) / 12 - longest / 12 - detail::years_shifted;
  const int month = static_cast<int>((from_first + longest) % 12) + 1;
  if (year < -last_year || year > last_year) return std::nullopt;
  const int last_day = days_in_month(year, month);
  return Date{static_cast<std::int32_t>(year), static_cast<std::uint8_t>(month),
              static_cast<std::uint8_t>(date.day < last_day ? date.day : last_day)};
}
/// From 00:00 UTC on, keeping the date that results: 2021-01-02 - PT1H = 2021-01-01.
std::optional<Date> add(const Date&, Duration);
std::optional<DateTime> add(const DateTime&, Months);  ///< The time and zone are kept.
/// On the time line; the zone is kept. A local time that the clocks skip is read with the offset before the
/// change, one that they pass twice as the first (RFC 5545, 3.3.5).
std::optional<DateTime> add(const DateTime&, Duration);
Time add(const Time&, Duration);  ///< Wraps at midnight; the zone is kept.
std::optional<Months> add(Months, Months);
std::optional<Duration> add(Duration, Duration);
std::optional<Months> negated(Months);
std::optional<Duration> negated(Duration);

Duration between(const Date& from, const Date& to);  ///< to - from, whole days.
/// to - from. No value when one is local and the other zoned. Times without a date are taken on the same day.
std::optional<Duration> between(const DateTime& from, const DateTime& to);
std::optional<Duration> between(const Time& from, const Time& to);
/// Whole months from -> to, sign kept, truncated toward zero; a month counts only when the day of the month
/// is reached: 2024-01-31 to 2024-02-29 is P0M, 2011-12-22 to 2013-08-24 is P1Y8M and reversed -P1Y8M.
constexpr Months months_between(const Date& from, const Date& to) {
  const std::int64_t months = (std::int64_t{to.year} - from.year) * 12 + to.month - from.month;
  if (months > 0 && to.day < from.day) return {months - 1};
  if (months < 0 && to.day > from.day) return {months + 1};
  return {months};
}

// --- comparison -------------------------------------------------------------------------------------------

/// Both local: by the fields; both zoned: by the instant; else unordered. To the nanosecond.
std::partial_ordering compare(const Time&, const Time&);
std::partial_ordering compare(const DateTime&, const DateTime&);
/// FEEL `=`: as `compare`, but fractions of a second are ignored. A local time never equals a zoned one.
bool equal(const Time&, const Time&);
bool equal(const DateTime&, const DateTime&);
/// The same stored fields, zone and offset included; `Z` is the same as `+00:00`.
bool same_fields(const Time&, const Time&);
bool same_fields(const DateTime&, const DateTime&);

// --- properties -------------------------------------------------------------------------------------------

/// Monday 1 to Sunday 7.
constexpr int weekday(const Date& date) {
  // Day 0 of the shifted count, 1 March of a year divisible by 400, is a Wednesday.
  return static_cast<int>((days_since_epoch(date) + detail::days_shifted + 2) % 7) + 1;
}
/// From 1.
constexpr int day_of_year(const Date& date) {
  return static_cast<int>(days_since_epoch(date) - days_since_epoch({date.year, 1, 1})) + 1;
}
int week_of_year(const Date&);  ///< ISO 8601.
/// Seconds east of UTC: the offset itself, or that of the named zone at that local time. No value when local.
/// A time without a date has its zone's standard offset, the smaller of those of January and July 2026.
std::optional<Duration> offset_of(const Time&);
std::optional<Duration> offset_of(const DateTime&);

}  // namespace engine
