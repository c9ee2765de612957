#include "bands.h"

#include "late_clock.h"

namespace ledger {

std::string_view text_of(Band band) {
  switch (band) {
    case Band::grey:
      return "grey";
    case Band::yellow:
      return "yellow";
    case Band::amber:
      return "amber";
    default:
      return "red";
  }
}

Band band_of(const engine::Date& since, const engine::Date& today,
             const std::optional<engine::Date>& site_check, const BandLimits& limits) {
  const std::int64_t days = days_between(since, today);
  if (days > limits.red_over) return Band::red;
  if (site_check && *site_check <= plus_days(since, limits.red_over)) return Band::red;
  if (days > limits.amber_over) return Band::amber;
  return days < limits.grey_below ? Band::grey : Band::yellow;
}

}  // namespace ledger
