// The invented unit: its patients live through their scenarios day by day, through the same door as real
// ones.

#pragma once

#include <cstddef>
#include <cstdint>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace cli {

struct DemoUnit {
  std::size_t patients = 0;
  std::size_t signatures = 0;
  std::size_t refused = 0;  ///< Inputs that were refused, as some are in every unit.
  /// An examination whose answer waits for a signature, for the newcomer to sign; empty when there is none.
  std::string exam_to_sign;
};

/// Fills an empty ledger with about that many patients (at least one for each scenario) up to `today`. The
/// same arguments write the same entries, byte for byte. Fails as the ledger does.
engine::Result<DemoUnit> play_demo_unit(ledger::Ledger& ledger, const ledger::Protocol& protocol,
                                        const engine::Date& today, int patients);

}  // namespace cli
