// Recalls of one lane have the same risk, an interval within the same thirty days, and the same number of
// days from the due date to the late date: lists read them in the order of their due dates (recall_order.h).

#pragma once

namespace ledger {

/// The lane of a row of `recalls`: risk, thirty days of the interval, and the days from the due date to the
/// late date, one more than they are. They are 0 where days not ready make them differ from recall to recall.
#define LEDGER_LANE                                                           \
  "risk * 100000000 + min(interval_days / 30, 9999) * 10000"                  \
  " + iif(NOT EXISTS (SELECT 1 FROM not_ready WHERE recall = recalls.number)" \
  " AND julianday(late_on) - julianday(due) BETWEEN 0 AND 9998,"              \
  " CAST(julianday(late_on) - julianday(due) AS INTEGER) + 1, 0)"

}  // namespace ledger
