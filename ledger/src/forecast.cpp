#include "ledger/forecast.h"

namespace ledger {

std::vector<Load> load_of(const Forecast& forecast, double non_attendance) {
  std::vector<Load> loads;
  double missed = 0;
  for (const ForecastMonth& month : forecast.months) {
    Load load;
    load.appointments = static_cast<double>(month.due()) + missed;
    missed = load.appointments * non_attendance;
    load.attended = load.appointments - missed;
    loads.push_back(load);
  }
  return loads;
}

}  // namespace ledger
