// A ledger of a large unit under us-2020, whose intervals differ much: examinations recorded, signed, their
// recalls open. One in fifty recalls had days not ready, and one in a hundred was decided otherwise on
// another day, so that its interval is like no other.

#pragma once

#include <string>

#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace bench {

/// The day that lists are asked for.
inline constexpr engine::Date unit_day{2026, 3, 20};

/// A shipped ruleset, ready to be asked.
ledger::Protocol shipped(const std::string& id);

/// Opens `path`, or makes it with so many recalls; says how fast. Nothing is flushed to the disk while it is
/// made.
ledger::Ledger large_unit(const std::string& path, int recalls);

}  // namespace bench
