// Measures as text, CSV and JSON. People stand by their number on this ledger alone, without names.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "ledger/measures.h"

namespace cli {

enum class Patients : std::uint8_t { left_out, shown };

struct MeasuresPage {
  std::vector<ledger::Measure> measures;
  std::string period;  ///< `from 2026-01-01 to 2026-03-31`, `all`.
  std::string as_of, stamp;
  Patients patients{};
};

std::string text_of(const MeasuresPage& page);
/// A line for each measure, or with patients a line for each case.
std::string csv_of(const MeasuresPage& page);
std::string json_of(const MeasuresPage& page);

}  // namespace cli
