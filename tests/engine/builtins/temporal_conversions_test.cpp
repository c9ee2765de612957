// Dates, times and durations made of text or parts. Source: DMN 1.5, table 73.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::value_of;

TEST_CASE("dates and times are made of text, parts or one another", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a date of text", R"(date("2024-02-29"))", R"(date("2024-02-29"))"},
      {"a date of parts", "date(2024, 02, 29)", R"(date("2024-02-29"))"},
      {"by name", "date(day: 29, month: 2, year: 2024)", R"(date("2024-02-29"))"},
      {"a day that is not there", "date(2023, 2, 29)", "null"},
      {"the day after the last of the month", R"(date("2024-04-31"))", "null"},
      {"part of a day", "date(2024, 2, 1.5)", "null"},
      {"before the year 0", "date(-2017, 12, 31)", R"(date("-2017-12-31"))"},
      {"beyond the last year", "date(1000000000, 1, 1)", "null"},
      {"a date of a date and time", R"(date(from: date and time("2024-02-29T23:59:59-05:00")))",
       R"(date("2024-02-29"))"},
      {"a date of a null part", "date(2024, null, 29)", "null"},
      {"a time of text", R"(time("11:22:33.444"))", R"(time("11:22:33.444"))"},
      {"a time of parts", "time(12, 59, 1.3)", R"(time("12:59:01.3"))"},
      {"with an offset", R"(time(11, 59, 0, duration("-PT2H1M")))", R"(time("11:59:00-02:01"))"},
      {"without an offset", "time(11, 59, 0, null)", R"(time("11:59:00"))"},
      {"an offset beyond 18 hours", R"(time(11, 59, 0, duration("PT19H")))", "null"},
      {"an offset in months", R"(time(11, 59, 0, duration("P1M")))", "null"},
      {"hour 24", "time(24, 0, 0)", "null"},
      {"second 60", "time(23, 59, 60)", "null"},
      {"a time of a date is midnight UTC", R"(time(date("2024-02-29")))", R"(time("00:00:00Z"))"},
      {"a time of a date and time", R"(time(date and time("2024-02-29T10:20:00@Europe/Paris")))",
       R"(time("10:20:00@Europe/Paris"))"},
      {"two of three parts", "time(11, 59)", "null"},
      {"a date and time of text", R"(date and time("2024-02-29T11:22:33Z"))",
       R"(date and time("2024-02-29T11:22:33Z"))"},
      {"text without a time", R"(date and time("2024-02-29"))", R"(date and time("2024-02-29T00:00:00"))"},
      {"of a date and a time", R"(date and time(date("2024-02-29"), time("23:59:01+02:00")))",
       R"(date and time("2024-02-29T23:59:01+02:00"))"},
      {"the zone is that of the time",
       R"(date and time(date and time("2024-02-29T10:20:00+02:00"), time("23:59:01")))",
       R"(date and time("2024-02-29T23:59:01"))"},
      {"of a date and null", R"(date and time(date("2024-02-29"), null))", "null"},
      {"by name", R"(date and time(time: time("23:59:01"), date: date("2024-02-29")))",
       R"(date and time("2024-02-29T23:59:01"))"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("durations are of days or of months", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"days and time", R"(duration("PT1000M"))", R"(duration("PT16H40M"))"},
      {"years and months", R"(duration(from: "-P100M"))", R"(duration("-P8Y4M"))"},
      {"a mixture", R"(duration("P1Y1D"))", "null"},
      {"weeks", R"(duration("P1W"))", "null"},
      {"text only", "duration(12)", "null"},
      {"whole months between", R"(years and months duration(date("2011-12-22"), date("2013-08-24")))",
       R"(duration("P1Y8M"))"},
      {"backwards", R"(years and months duration(date("2013-08-24"), date("2011-12-22")))",
       R"(duration("-P1Y8M"))"},
      {"the day of the month is not reached",
       R"(years and months duration(date("2024-01-31"), date("2024-02-29")))", R"(duration("P0M"))"},
      {"from the leap day", R"(years and months duration(date("2024-02-29"), date("2025-02-28")))",
       R"(duration("P11M"))"},
      {"from the leap day to the next",
       R"(years and months duration(date("2024-02-29"), date("2028-02-29")))", R"(duration("P4Y"))"},
      {"the time of day does not count",
       R"(years and months duration(from: date and time("2014-12-31T23:59:59"), to: date("2016-12-31")))",
       R"(duration("P2Y"))"},
      {"null", R"(years and months duration(date("2024-02-29"), null))", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}
