// From which day on a recall is late. Days on which the person could not be examined do not count.

#pragma once

#include <cstdint>
#include <vector>

#include "engine/calendar.h"
#include "ledger/protocol.h"

namespace ledger {

/// Days from `first` to `last`, both included.
struct NotReady {
  engine::Date first, last;
};

/// `date` and so many days more; past the end of the calendar, the date itself.
engine::Date plus_days(const engine::Date& date, std::int64_t days);
/// Days from `from` to `to`.
std::int64_t days_between(const engine::Date& from, const engine::Date& to);

/// The last day that is not late: `due`, `late_after` days (42 unless a protocol says otherwise), and the
/// days not ready from the due date on. The clock stands still on those days; days before the due date, and
/// days counted twice, give nothing.
engine::Date late_date(const engine::Date& due, std::vector<NotReady> periods,
                       std::int64_t late_after = ProtocolTerms{}.late_after_days);

}  // namespace ledger
