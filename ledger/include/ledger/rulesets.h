// The rulesets that answer, and their bytes, which the ledger keeps so that any past answer can be computed
// again.

#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/ruleset.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

/// A ruleset as the unit's protocol puts it in force.
struct RulesetInForce {
  std::shared_ptr<const engine::Ruleset> ruleset;  ///< Loaded from `bytes`. Never null.
  std::string bytes;                               ///< ruleset.dmn as it stands on disk.
};

/// In the order in which the unit names them: the first wins where two answers are equal.
using Protocol = std::vector<RulesetInForce>;

/// Keeps the bytes of each ruleset that the ledger does not hold yet, one `ruleset installed` entry each.
/// The operations that advise do this by themselves. Fails with `ruleset_bytes_differ` when the digest of the
/// bytes is not the ruleset's.
engine::Result<engine::Done> install(Ledger& ledger, const Author& author, const Protocol& protocol);

}  // namespace ledger
