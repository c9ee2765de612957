// A ledger with as many open recalls as a bench is to have: those of a large unit as often as it takes, each
// some days away from the other. The copies share the entries of the recall that they were made of. Lists and
// `revet` read them as they read any; a million of real ones take an hour.

#pragma once

#include <string>

#include "ledger/ledger.h"

namespace bench {

/// Made at `path`, and opened for reading. Its derived tables are not those of its entries any more.
ledger::Ledger many_recalls(const ledger::Ledger& unit, const std::string& path, int recalls);

}  // namespace bench
