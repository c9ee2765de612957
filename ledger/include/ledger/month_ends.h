// The register of open recalls at each month's end, and how one month leads to the next. Counted from the
// entries, not from the lists: that the two agree is a check of both.

#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"

namespace ledger {

/// One month, by the UTC day on which entries were written.
struct MonthEnd {
  engine::Date day;  ///< The month's last day; for the month that runs, the day asked for.
  std::uint64_t open_before = 0;
  std::uint64_t opened = 0, reopened = 0, taken_back = 0;   ///< Ways in.
  std::uint64_t answered = 0, closed = 0, handed_over = 0;  ///< Ways out.
  std::uint64_t open = 0;                                   ///< As the states stand.
  std::uint64_t due = 0, late = 0;                          ///< As `due` and `overdue` count on that day.
  std::array<std::uint64_t, 4> late_weeks{};                ///< Late up to 4 weeks, 12, 26, and longer.

  std::uint64_t came() const { return opened + reopened + taken_back; }
  std::uint64_t went() const { return answered + closed + handed_over; }
  /// open before + opened - ended = open now.
  bool reconciles() const { return open_before + came() == open + went(); }
};

struct MonthEnds {
  std::vector<MonthEnd> months;  ///< Oldest first; the last one ends on the day asked for.
  std::uint64_t listed = 0;      ///< Open recalls by the derived tables, now.
  bool is_now = true;            ///< No entry is of a later day than the one asked for: `listed` compares.
};

/// The last `months` months up to `today`, at least one.
engine::Result<MonthEnds> month_ends(const Ledger& ledger, const engine::Date& today, std::uint32_t months);

}  // namespace ledger
