// Built-ins on dates. Source: DMN 1.5, tables 80 and 81; weeks: ISO 8601.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("a date has a day and week of the year, and names", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"the last day of a leap year", R"(day of year(date("2024-12-31")))", "366"},
      {"the day after the leap day", R"(day of year(date("2024-03-01")))", "61"},
      {"a leap day", R"(day of week(date("2024-02-29")))", R"("Thursday")"},
      {"of a date and time, where it is", R"(day of week(date: date and time("2024-02-29T23:59:59-11:00")))",
       R"("Thursday")"},
      {"a month", R"(month of year(date("2024-02-29")))", R"("February")"},
      {"the last month", R"(month of year(date("2024-12-31")))", R"("December")"},
      {"the last days of December in week 1", R"(week of year(date("2003-12-29")))", "1"},
      {"the first days of January in week 53", R"(week of year(date("2010-01-01")))", "53"},
      {"text is no date", R"(day of year("2024-02-29"))", "null"},
      {"null is no date", "week of year(null)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("now and today are those of the request", "[feel][builtins]") {
  const auto at_leap_day = [](std::string_view text) {
    engine::Arena arena;
    const auto now = engine::parse_date_time("2024-02-29T23:30:00-01:00");
    const auto answer = engine::evaluate(text, {}, arena, now);
    return literal_of(answer.operator*().value);
  };
  CHECK(at_leap_day("now()") == R"(date and time("2024-02-29T23:30:00-01:00"))");
  CHECK(at_leap_day("today()") == R"(date("2024-02-29"))");
  CHECK(at_leap_day(R"(today() + duration("P1Y"))") == R"(date("2025-02-28"))");
  CHECK(at_leap_day("today(1)") == "null");
}

TEST_CASE("without a clock there is no now, and it is said", "[feel][builtins]") {
  CHECK(value_of("today()") == "null");
  CHECK(notes_of("today()") == "no_clock");
  CHECK(notes_of("now()") == "no_clock");
}
