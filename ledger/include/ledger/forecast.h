// How many examinations fall due in the months ahead: from open recalls and the later steps of their plans.
// What the examinations ahead will find is not known, and nothing is forecast from it.

#pragma once

#include <cstdint>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"

namespace ledger {

struct ForecastMonth {
  engine::Date month;  ///< Its first day.
  std::uint64_t recalls =
      0;                    ///< Open recalls whose due date lies in it, or before today for the first month.
  std::uint64_t later = 0;  ///< Later steps of plans, each counted from the due date of the step before.
  std::uint64_t least = 0;  ///< Whose whole window lies in the month: they cannot be done in another one.
  std::uint64_t most = 0;   ///< Whose window touches the month: they may all come in it.
  std::uint64_t due() const { return recalls + later; }
};

struct Forecast {
  std::vector<ForecastMonth> months;
  std::uint64_t waiting = 0;  ///< Of the first month: due before today and still open.
  std::uint64_t beyond = 0;   ///< Recalls and later steps after the last month.
};

/// `months` months from that of `today` on.
engine::Result<Forecast> forecast(const Ledger& ledger, const engine::Date& today, std::uint32_t months);

/// What a share of people who do not attend does: each of them is given an appointment again in the next
/// month.
struct Load {
  double appointments =
      0;  ///< To be offered: due in the month, and those who did not attend the month before.
  double attended = 0;
};
/// One for each month. `non_attendance` is a share from 0 to below 1.
std::vector<Load> load_of(const Forecast& forecast, double non_attendance);

}  // namespace ledger
