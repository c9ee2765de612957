#include "engine/calendar.h"
#include "units.h"

namespace engine {

std::optional<Date> add(const Date& date, Duration duration) {
  // The nanoseconds count upwards from whole seconds, so they never reach back into the day before.
  return date_from_days(days_since_epoch(date) +
                        detail::divide_down(duration.seconds, detail::seconds_per_day).quotient);
}

Duration between(const Date& from, const Date& to) {
  return {(days_since_epoch(to) - days_since_epoch(from)) * detail::seconds_per_day, 0};
}

namespace {

/// A year has 53 weeks when it begins on a Thursday, or is a leap year and begins on a Wednesday.
int weeks_in_year(std::int32_t year) {
  const int first = weekday({year, 1, 1});
  return first == 4 || (first == 3 && is_leap_year(year)) ? 53 : 52;
}

}  // namespace

int week_of_year(const Date& date) {
  // Week 1 is the one that holds the year's first Thursday.
  const int week = (day_of_year(date) - weekday(date) + 10) / 7;
  if (week < 1) return weeks_in_year(date.year - 1);
  if (week > weeks_in_year(date.year)) return 1;
  return week;
}

}  // namespace engine
