// Outside check: our calendar against Python's datetime (ordinal, ISO calendar) and dateutil's relativedelta
// (months).

#include <catch2/catch.hpp>

#include "engine/calendar.h"
#include "reference_script.h"

namespace engine {
namespace {

/// Python counts days from 0000-12-31: `datetime.date(1970, 1, 1).toordinal()` is this.
constexpr std::int64_t ordinal_of_epoch = 719'163;

std::int64_t next_number(std::istream& lines) {
  std::int64_t number = 0;
  lines >> number;
  return number;
}

void check_months(const Date& date, std::int64_t months, std::int64_t expected_ordinal) {
  const auto result = add(date, Months{months});
  if (result && days_since_epoch(*result) + ordinal_of_epoch == expected_ordinal) return;
  const auto expected = date_from_days(expected_ordinal - ordinal_of_epoch);
  FAIL(text_of(date) << " + " << months << " months is " << (result ? text_of(*result) : "no value")
                     << ", and by dateutil " << (expected ? text_of(*expected) : "no date"));
}

TEST_CASE("eight years of days agree with Python, and 120 months either way with dateutil", "[calendar]") {
  test::ReferenceScript script("months_reference.py");
  std::istream& lines = script.lines();
  int compared = 0;
  std::string text;
  while (lines >> text) {
    INFO(text);
    const auto date = parse_date(text);
    REQUIRE(date);
    REQUIRE(days_since_epoch(*date) + ordinal_of_epoch == next_number(lines));
    REQUIRE(date_from_days(days_since_epoch(*date)) == date);
    REQUIRE(weekday(*date) == next_number(lines));
    REQUIRE(week_of_year(*date) == next_number(lines));
    REQUIRE(day_of_year(*date) == next_number(lines));
    for (int months = 1; months <= 120; ++months) check_months(*date, months, next_number(lines));
    for (int months = 1; months <= 120; ++months) check_months(*date, -months, next_number(lines));
    REQUIRE(text_of(*date) == text);
    ++compared;
  }
  if (script.unavailable()) return;
  CHECK(compared == 8 * 365 + 2);
}

}  // namespace
}  // namespace engine
