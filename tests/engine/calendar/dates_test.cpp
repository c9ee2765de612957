#include <catch2/catch.hpp>

#include <type_traits>

#include "engine/calendar.h"

namespace engine {
namespace {

static_assert(std::is_trivially_copyable_v<Date> && std::is_trivially_copyable_v<Time>);
static_assert(std::is_trivially_copyable_v<DateTime> && std::is_trivially_copyable_v<Zone>);
static_assert(std::is_trivially_copyable_v<Months> && std::is_trivially_copyable_v<Duration>);
static_assert(days_since_epoch({1970, 1, 1}) == 0, "dates are worked out while compiling");

Date date_of(const char* text) {
  const auto date = parse_date(text);
  INFO("date: " << text);
  REQUIRE(date);
  return *date;
}

template <class Kind>
Kind duration_of(const char* text) {
  const auto duration = parse_duration(text);
  INFO("duration: " << text);
  REQUIRE(duration);
  REQUIRE(std::holds_alternative<Kind>(*duration));
  return std::get<Kind>(*duration);
}

template <class Value>
std::string text_or_none(const std::optional<Value>& value) {
  return value ? text_of(*value) : "no value";
}

TEST_CASE("a date is read only from its one form", "[calendar]") {
  // Source: XML Schema Part 2, 3.3.9 (date), without the zone; DMN 1.5, 10.3.4.1 (date from text).
  struct Row {
    const char* because;
    const char* text;
    const char* printed;
  };
  const auto row = GENERATE(values<Row>({
      {"a plain date", "2017-12-31", "2017-12-31"},
      {"a date before the year 0", "-2017-01-01", "-2017-01-01"},
      {"the year 0 exists in XML Schema 1.1", "0000-12-25", "0000-12-25"},
      {"small years are padded to four digits", "-0044-03-15", "-0044-03-15"},
      {"a year of five digits", "12017-12-31", "12017-12-31"},
      {"the last day of all", "999999999-12-31", "999999999-12-31"},
      {"the first day of all", "-999999999-01-01", "-999999999-01-01"},
      {"a leap day", "2024-02-29", "2024-02-29"},
      {"a leap day of a fourth century", "2000-02-29", "2000-02-29"},
      {"no leap day in a plain year", "2023-02-29", "no value"},
      {"no leap day in a plain century", "1900-02-29", "no value"},
      {"a year needs four digits", "998-12-31", "no value"},
      {"no leading zero beyond four digits", "01211-12-31", "no value"},
      {"ten digits are too many", "1000000000-01-01", "no value"},
      {"a plus sign is not part of it", "+2012-12-02", "no value"},
      {"there is no month 13", "2017-13-10", "no value"},
      {"there is no month 0", "2017-00-10", "no value"},
      {"there is no day 32", "2017-12-32", "no value"},
      {"there is no day 0", "2017-12-00", "no value"},
      {"there is no 31 April", "2017-04-31", "no value"},
      {"a month has two digits", "2017-1-10", "no value"},
      {"a day has two digits", "2017-01-5", "no value"},
      {"a day has no third digit", "2017-01-105", "no value"},
      {"slashes do not part it", "2012/12/25", "no value"},
      {"nothing may follow", "2012-12-25T", "no value"},
      {"a zone may not follow", "2012-12-25Z", "no value"},
      {"no space before it", " 2012-12-25", "no value"},
      {"the day is missing", "2012-12", "no value"},
      {"an empty text", "", "no value"},
      {"only a sign", "-", "no value"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(text_or_none(parse_date(row.text)) == row.printed);
}

TEST_CASE("a date is made only from numbers that name a day", "[calendar]") {
  CHECK(text_or_none(make_date(2024, 2, 29)) == "2024-02-29");
  CHECK(text_or_none(make_date(-999'999'999, 1, 1)) == "-999999999-01-01");
  CHECK_FALSE(make_date(1'000'000'000, 1, 1));
  CHECK_FALSE(make_date(-1'000'000'000, 12, 31));
  CHECK_FALSE(make_date(2017, -8, 2));
  CHECK_FALSE(make_date(2017, 8, -2));
  CHECK_FALSE(make_date(2017, 4'294'967'297, 1));
  CHECK_FALSE(make_date(2017, 8, 32));
  CHECK(days_in_month(2017, 0) == 0);
  CHECK(days_in_month(2017, 13) == 0);
}

TEST_CASE("months are added by the calendar, and the day falls back to the month's last", "[calendar]") {
  // Source: DMN 1.5, 10.3.2.3; the rule for days that the month lacks is XML Schema Part 2, appendix E.
  struct Row {
    const char* because;
    const char* from;
    const char* months;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"31 January has no like in a leap February", "2024-01-31", "P1M", "2024-02-29"},
      {"31 January has no like in a plain February", "2023-01-31", "P1M", "2023-02-28"},
      {"a leap day a year on", "2024-02-29", "P1Y", "2025-02-28"},
      {"a leap day four years on", "2024-02-29", "P4Y", "2028-02-29"},
      {"a leap day a hundred years before a plain century", "2000-02-29", "P100Y", "2100-02-28"},
      {"back into a leap February", "2024-03-31", "-P1M", "2024-02-29"},
      {"half a year from the end of August", "2023-08-31", "P6M", "2024-02-29"},
      {"31 to a month of 30", "2024-10-31", "P1M", "2024-11-30"},
      {"a February's end is not a month's end", "2023-02-28", "P1M", "2023-03-28"},
      {"two months at once keep the 31st", "2024-01-31", "P2M", "2024-03-31"},
      {"December into January", "2024-12-15", "P1M", "2025-01-15"},
      {"January back into December", "2024-01-15", "-P1M", "2023-12-15"},
      {"nothing added", "2024-01-31", "P0M", "2024-01-31"},
      {"a three-year interval", "2026-03-10", "P3Y", "2029-03-10"},
      {"across the year 0", "0001-01-31", "-P11M", "0000-02-29"},
      {"from the year 0 backwards", "0000-01-15", "-P1M", "-0001-12-15"},
      {"years before 0", "-2021-01-01", "-P1M", "-2022-12-01"},
      {"from the first day to the last year", "-999999999-01-01", "P1999999998Y", "999999999-01-01"},
      {"past the last day", "999999999-12-31", "P1M", "no value"},
      {"past the first day", "-999999999-01-01", "-P1M", "no value"},
      {"far past the last day", "2024-01-31", "P9223372036854775807M", "no value"},
      {"far past the first day", "2024-01-31", "-P9223372036854775807M", "no value"},
  }));
  INFO(row.because << ": " << row.from << " + " << row.months);
  CHECK(text_or_none(add(date_of(row.from), duration_of<Months>(row.months))) == row.result);
}

TEST_CASE("adding months one by one is not the same as adding them at once", "[calendar]") {
  const auto february = add(date_of("2024-01-31"), Months{1});
  REQUIRE(february);
  CHECK(text_or_none(add(*february, Months{1})) == "2024-03-29");
}

TEST_CASE("days and hours are added to a date from midnight UTC on", "[calendar]") {
  // Source: DMN 1.5, 10.3.2.13 (addition and subtraction), from memory.
  struct Row {
    const char* because;
    const char* from;
    const char* duration;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"a day on", "2021-01-01", "P1D", "2021-01-02"},
      {"a day and a half", "2021-01-01", "PT36H", "2021-01-02"},
      {"two days as hours", "2021-01-01", "PT48H", "2021-01-03"},
      {"an hour back is the day before", "2021-01-02", "-PT1H", "2021-01-01"},
      {"a thousand millionth of a second back", "2021-01-02", "-PT0.000000001S", "2021-01-01"},
      {"a second on is the same day", "2021-01-02", "PT1S", "2021-01-02"},
      {"back over a leap day", "2020-03-01", "-PT24H", "2020-02-29"},
      {"twenty-five hours back", "2021-01-02", "-PT25H", "2020-12-31"},
      {"past the last day", "999999999-12-31", "P1D", "no value"},
      {"past the first day", "-999999999-01-01", "-PT1S", "no value"},
      {"far past the last day", "2021-01-02", "PT9223372036854775807S", "no value"},
  }));
  INFO(row.because << ": " << row.from << " + " << row.duration);
  CHECK(text_or_none(add(date_of(row.from), duration_of<Duration>(row.duration))) == row.result);
}

TEST_CASE("the days between two dates", "[calendar]") {
  struct Row {
    const char* from;
    const char* to;
    const char* days;
  };
  const auto row = GENERATE(values<Row>({
      {"2021-01-01", "2021-01-02", "P1D"},
      {"2021-01-02", "2021-01-01", "-P1D"},
      {"1995-01-01", "2021-01-02", "P9498D"},
      {"2024-02-28", "2024-03-01", "P2D"},
      {"2021-01-01", "2021-01-01", "PT0S"},
      // 5,000,000 cycles of 146,097 days, less the leap year -1,000,000,000 and less one: the days are
      // between
      {"-999999999-01-01", "999999999-12-31", "P730484999633D"},
  }));
  INFO(row.from << " to " << row.to);
  CHECK(text_of(between(date_of(row.from), date_of(row.to))) == row.days);
}

TEST_CASE("whole months between two dates", "[calendar]") {
  struct Row {
    const char* because;
    const char* from;
    const char* to;
    const char* months;
  };
  const auto row = GENERATE(values<Row>({
      {"the day of the month is passed", "2011-12-22", "2013-08-24", "P1Y8M"},
      {"the same, backwards", "2013-08-24", "2011-12-22", "-P1Y8M"},
      {"a whole year", "2015-01-21", "2016-01-21", "P1Y"},
      {"the 31st is not reached in February", "2024-01-31", "2024-02-29", "P0M"},
      {"the 29th is not reached in February", "2024-02-29", "2025-02-28", "P11M"},
      {"a day short of a month", "2024-01-15", "2024-02-14", "P0M"},
      {"a day short of a month, backwards", "2024-02-14", "2024-01-15", "P0M"},
      {"backwards to a later day of the month", "2024-03-10", "2024-01-11", "-P1M"},
      {"the same day", "2016-01-01", "2016-01-01", "P0M"},
      {"before the year 0", "-2016-01-30", "-2017-02-28", "-P11M"},
      {"all years there are", "-999999999-01-01", "999999999-12-31", "P1999999998Y11M"},
  }));
  INFO(row.because << ": " << row.from << " to " << row.to);
  CHECK(text_of(months_between(date_of(row.from), date_of(row.to))) == row.months);
}

TEST_CASE("the weekday, the day and the week of the year", "[calendar]") {
  // Source: ISO 8601, week dates; `date -d 2005-01-01 +'%u %j %V'` prints the three of a row.
  struct Row {
    const char* because;
    const char* date;
    int weekday;
    int day;
    int week;
  };
  const auto row = GENERATE(values<Row>({
      {"a Thursday begins a week 1", "1970-01-01", 4, 1, 1},
      {"a Saturday still in the old year's week 53", "2005-01-01", 6, 1, 53},
      {"the Monday of week 1", "2005-01-03", 1, 3, 1},
      {"a Monday in December, week 1 of the next year", "2003-12-29", 1, 363, 1},
      {"a Friday still in the old year's week 53", "2010-01-01", 5, 1, 53},
      {"a Saturday still in the old year's week 52", "2022-01-01", 6, 1, 52},
      {"an ordinary Tuesday", "2019-09-17", 2, 260, 38},
      {"the last day of a leap year", "2020-12-31", 4, 366, 53},
      {"a Sunday ends its week", "2024-12-29", 7, 364, 52},
      {"the first day of all is like 2001-01-01", "-999999999-01-01", 1, 1, 1},
      {"the last day of all is like 1999-12-31", "999999999-12-31", 5, 365, 52},
  }));
  INFO(row.because << ": " << row.date);
  const Date date = date_of(row.date);
  CHECK(weekday(date) == row.weekday);
  CHECK(day_of_year(date) == row.day);
  CHECK(week_of_year(date) == row.week);
}

TEST_CASE("the calendar repeats itself every 400 years, up to both ends", "[calendar]") {
  const auto year = GENERATE(-999'999'999, -999'999'601, -401, -1, 0, 1, 1582, 1999, 999'999'599);
  for (int month = 1; month <= 12; ++month) {
    const Date date{year, static_cast<std::uint8_t>(month), 28};
    const Date later{year + 400, static_cast<std::uint8_t>(month), 28};
    INFO(text_of(date));
    CHECK(days_since_epoch(later) - days_since_epoch(date) == 146'097);
    CHECK(date_from_days(days_since_epoch(date)) == date);
    CHECK(date_from_days(days_since_epoch(later)) == later);
    CHECK(weekday(later) == weekday(date));
    CHECK(week_of_year(later) == week_of_year(date));
  }
}

TEST_CASE("each day follows the one before it, as in a calendar leafed through by hand", "[calendar]") {
  const auto start = GENERATE(-999'999'999, -5, 1895, 1995, 999'999'989);
  Date by_hand{start, 1, 1};
  std::int64_t days = days_since_epoch(by_hand);
  int day_of_week = weekday(by_hand);
  while (by_hand.year < start + 10) {
    if (date_from_days(days) != by_hand || days_since_epoch(by_hand) != days ||
        weekday(by_hand) != day_of_week) {
      FAIL("day " << days << " should be " << text_of(by_hand));
    }
    const bool leap = by_hand.year % 4 == 0 && (by_hand.year % 100 != 0 || by_hand.year % 400 == 0);
    const int lengths[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (by_hand.day < lengths[by_hand.month - 1]) {
      ++by_hand.day;
    } else {
      by_hand.day = 1;
      by_hand.month = static_cast<std::uint8_t>(by_hand.month % 12 + 1);
      if (by_hand.month == 1) ++by_hand.year;
    }
    ++days;
    day_of_week = day_of_week % 7 + 1;
  }
  CHECK(days - days_since_epoch({start, 1, 1}) >= 3652);
}

TEST_CASE("no day lies before the first or after the last", "[calendar]") {
  const std::int64_t first = days_since_epoch({-999'999'999, 1, 1});
  const std::int64_t last = days_since_epoch({999'999'999, 12, 31});
  CHECK(date_from_days(first) == Date{-999'999'999, 1, 1});
  CHECK(date_from_days(last) == Date{999'999'999, 12, 31});
  CHECK_FALSE(date_from_days(first - 1));
  CHECK_FALSE(date_from_days(last + 1));
  CHECK_FALSE(date_from_days(INT64_MIN));
  CHECK_FALSE(date_from_days(INT64_MAX));
}

}  // namespace
}  // namespace engine
