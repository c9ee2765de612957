#include "bands.h"

#include "late_clock.h"

namespace ledger {

// Source of the limits: common practice.
constexpr std::int64_t grey_below = 7, amber_over = 10, red_over = 14;

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
             const std::optional<engine::Date>& site_check) {
  const std::int64_t days = days_between(since, today);
  if (days > red_over) return Band::red;
  if (site_check && *site_check <= plus_days(since, red_over)) return Band::red;
  if (days > amber_over) return Band::amber;
  return days < grey_below ? Band::grey : Band::yellow;
}

}  // namespace ledger
