// What puts a person first on a list, read from the record and the action.

#pragma once

#include "engine/advice.h"
#include "engine/record.h"
#include "ledger/lists.h"

namespace ledger {

/// The first that applies, in the order of the enumeration. This orders lists and nothing else: which
/// interval follows is the ruleset's to say. `action` may be none, when there is no answer yet.
Risk risk_of(const engine::Record& record, std::optional<engine::Action> action);

}  // namespace ledger
