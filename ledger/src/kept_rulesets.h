// Rulesets from the bytes that the ledger keeps.

#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "engine/ruleset.h"
#include "ledger/ledger.h"

namespace ledger {

/// The ruleset of `bytes`, with the files that it imports, which the ledger keeps too. `name` stands for it
/// in errors.
engine::Result<std::shared_ptr<const engine::Ruleset>> load_kept(const Ledger& ledger, std::string_view bytes,
                                                                 const std::string& name);

}  // namespace ledger
