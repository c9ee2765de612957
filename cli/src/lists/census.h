// The month-end census as text, CSV and JSON.

#pragma once

#include <string>

#include "ledger/month_ends.h"

namespace cli {

struct CensusPage {
  ledger::MonthEnds ends;
  std::string as_of, stamp;
};

/// Every month leads to the next, and the last one to what the lists hold now.
bool adds_up(const CensusPage& page);

std::string text_of(const CensusPage& page);
std::string csv_of(const CensusPage& page);
std::string json_of(const CensusPage& page);

}  // namespace cli
