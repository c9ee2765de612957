// A forecast as text with bars, CSV, JSON and a chart.

#pragma once

#include <string>
#include <vector>

#include "ledger/forecast.h"

namespace cli {

struct ForecastPage {
  ledger::Forecast forecast;
  std::vector<ledger::Load> load;
  int non_attendance = 0;  ///< Per cent.
  std::string as_of, stamp;
};

std::string text_of(const ForecastPage& page);
std::string csv_of(const ForecastPage& page);
std::string json_of(const ForecastPage& page);
/// A chart by itself: bars of what is due, the band of least and most, the line of appointments.
std::string svg_of(const ForecastPage& page);

/// `12.3`
std::string one_decimal(double number);

}  // namespace cli
