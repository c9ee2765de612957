// Dates, times, both kinds of duration, and the arithmetic between them.
//
// Source: DMN 1.5, 10.3.2.3 (FEEL date and time types), XML Schema Part 2 (lexical forms), ISO 8601 (weeks).
// Proleptic Gregorian calendar, years -999999999 to 999999999. All types are plain values, copied bit by bit.
// Operations that leave that range, or mix local and zoned time, give no value.
//
// Months rule: add the months; where the day does not exist in the resulting month, take that month's last day
// (2024-02-29 + 1 year = 2025-02-28). It is not associative: always add once, from the anchor date.

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

// --- text ------------------------------------------------------------------------------------------------------------

/// `[-]YYYY-MM-DD`, at least four year digits, no leading `+`, no leading zero beyond four digits, a day that exists.
std::optional<Date> parse_date(std::string_view text);
/// `hh:mm:ss[.f...]` with optional `Z`, `+hh:mm[:ss]` or `@Zone/Id`. Digits beyond nanoseconds are cut.
std::optional<Time> parse_time(std::string_view text);
/// `date T time`, or a bare date (00:00:00 local). `24:00:00` is the next day's 00:00:00.
std::optional<DateTime> parse_date_time(std::string_view text);
/// `[-]PnYnM` or `[-]PnDTnHnMnS`; never a mixture, never weeks, at least one part.
std::optional<std::variant<Months, Duration>> parse_duration(std::string_view text);

std::string text_of(const Date&);
std::string text_of(const Time&);
std::string text_of(const DateTime&);
std::string text_of(const Months&);    ///< Normalised: `P2Y2M`, zero is `P0M`.
std::string text_of(const Duration&);  ///< Normalised: `P1DT2H3M4.5S`, zero is `PT0S`.

// --- construction ----------------------------------------------------------------------------------------------------

bool is_leap_year(std::int64_t year);
int days_in_month(std::int64_t year, int month);
std::optional<Date> make_date(std::int64_t year, std::int64_t month, std::int64_t day);
/// Days since 1970-01-01.
std::int64_t days_since_epoch(const Date&);
std::optional<Date> date_from_days(std::int64_t days);
/// Looks the zone up in the IANA database. No value when unknown.
std::optional<Zone> named_zone(std::string_view name);

// --- arithmetic ------------------------------------------------------------------------------------------------------

std::optional<Date> add(const Date&, Months);
/// From 00:00 UTC on, keeping the date that results: 2021-01-02 - PT1H = 2021-01-01.
std::optional<Date> add(const Date&, Duration);
std::optional<DateTime> add(const DateTime&, Months);    ///< The time and zone are kept.
std::optional<DateTime> add(const DateTime&, Duration);  ///< On the time line; the zone is kept.
Time add(const Time&, Duration);                         ///< Wraps at midnight; the zone is kept.
std::optional<Months> add(Months, Months);
std::optional<Duration> add(Duration, Duration);
std::optional<Months> negated(Months);
std::optional<Duration> negated(Duration);

Duration between(const Date& from, const Date& to);  ///< to - from, whole days.
/// to - from. No value when one is local and the other zoned.
std::optional<Duration> between(const DateTime& from, const DateTime& to);
std::optional<Duration> between(const Time& from, const Time& to);
/// Whole months from -> to, sign kept, truncated toward zero; a month counts only when the day of the month is reached:
/// 2024-01-31 to 2024-02-29 is P0M, 2011-12-22 to 2013-08-24 is P1Y8M and reversed -P1Y8M.
Months months_between(const Date& from, const Date& to);

// --- comparison ------------------------------------------------------------------------------------------------------

/// Both local: by the fields; both zoned: by the instant; else unordered.
std::partial_ordering compare(const Time&, const Time&);
std::partial_ordering compare(const DateTime&, const DateTime&);
/// The same stored fields, zone and offset included; `Z` is the same as `+00:00`.
bool same_fields(const Time&, const Time&);
bool same_fields(const DateTime&, const DateTime&);

// --- properties ------------------------------------------------------------------------------------------------------

int weekday(const Date&);       ///< Monday 1 to Sunday 7.
int day_of_year(const Date&);   ///< From 1.
int week_of_year(const Date&);  ///< ISO 8601.
/// Seconds east of UTC: the offset itself, or that of the named zone at that local time. No value when local.
std::optional<Duration> offset_of(const Time&);
std::optional<Duration> offset_of(const DateTime&);

}  // namespace engine
