#include "late_clock.h"

#include <algorithm>

namespace ledger {

engine::Date plus_days(const engine::Date& date, std::int64_t days) {
  return engine::date_from_days(engine::days_since_epoch(date) + days).value_or(date);
}

std::int64_t days_between(const engine::Date& from, const engine::Date& to) {
  return engine::days_since_epoch(to) - engine::days_since_epoch(from);
}

engine::Date late_date(const engine::Date& due, std::vector<NotReady> periods, std::int64_t late_after) {
  std::sort(periods.begin(), periods.end(),
            [](const NotReady& a, const NotReady& b) { return a.first < b.first; });
  engine::Date late = plus_days(due, late_after);
  engine::Date uncounted = due;  // days before this one have been dealt with
  for (const NotReady& period : periods) {
    const engine::Date first = std::max(period.first, uncounted);
    if (period.last < first) continue;
    if (first > plus_days(late, 1)) break;  // it was late before that
    const std::int64_t days = days_between(first, period.last) + 1;
    late = plus_days(late, days);
    uncounted = plus_days(period.last, 1);
  }
  return late;
}

}  // namespace ledger
