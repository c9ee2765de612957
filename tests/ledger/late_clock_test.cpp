#include "late_clock.h"

#include <catch2/catch.hpp>
#include <random>
#include <set>

using engine::Date;
using ledger::NotReady;

namespace {

Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

/// The slow obvious way: count 42 days, one at a time, passing over those not ready. The due date itself is
/// the day before the first that counts.
Date counted(const Date& due, const std::vector<NotReady>& periods) {
  const auto is_not_ready = [&](const Date& date) {
    for (const NotReady& period : periods) {
      if (period.first <= date && date <= period.last) return true;
    }
    return false;
  };
  Date date = due;
  std::int64_t left = 42 + (is_not_ready(due) ? 1 : 0);
  while (left > 0) {
    date = ledger::plus_days(date, 1);
    if (!is_not_ready(date)) --left;
  }
  // Days that follow without a break do not count either: the person cannot come on them.
  while (is_not_ready(ledger::plus_days(date, 1))) date = ledger::plus_days(date, 1);
  return date;
}

}  // namespace

TEST_CASE("a recall is late after 42 days, not counting days not ready", "[late]") {
  struct Row {
    const char* because;
    std::vector<NotReady> periods;
    const char* late_on;
  };
  const auto row = GENERATE(values<Row>({
      {"always ready", {}, "2026-04-12"},
      {"ten days not ready within the clock", {{day("2026-03-10"), day("2026-03-19")}}, "2026-04-22"},
      {"not ready before the due date costs nothing", {{day("2026-01-01"), day("2026-02-28")}}, "2026-04-12"},
      {"only the days from the due date on count", {{day("2026-02-20"), day("2026-03-05")}}, "2026-04-17"},
      {"the same days twice count once",
       {{day("2026-03-10"), day("2026-03-19")}, {day("2026-03-15"), day("2026-03-24")}},
       "2026-04-27"},
      {"after the late date it is too late to be not ready",
       {{day("2026-05-01"), day("2026-05-31")}},
       "2026-04-12"},
      {"a second time falls into the days that the first gave",
       {{day("2026-04-15"), day("2026-04-20")}, {day("2026-03-10"), day("2026-03-19")}},
       "2026-04-28"},
  }));
  INFO(row.because);
  CHECK(engine::text_of(ledger::late_date(day("2026-03-01"), row.periods)) == row.late_on);
}

TEST_CASE("the late date is that of counting day by day", "[late]") {
  std::mt19937 random(GENERATE(range(1u, 60u)));
  const auto any = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
  const Date due = day("2026-03-01");
  std::vector<NotReady> periods;
  for (int i = any(0, 4); i > 0; --i) {
    const Date first = ledger::plus_days(due, any(-30, 90));
    periods.push_back({first, ledger::plus_days(first, any(0, 30))});
  }
  for (const NotReady& period : periods) {
    UNSCOPED_INFO(engine::text_of(period.first) << " to " << engine::text_of(period.last));
  }
  CHECK(engine::text_of(ledger::late_date(due, periods)) == engine::text_of(counted(due, periods)));
}
