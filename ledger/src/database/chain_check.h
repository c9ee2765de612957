// Follows the chain of a ledger, on connections of its own.

#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "ledger/audit.h"

namespace ledger {

/// Sequence, links and hashes up to the entry of number `last`, with `kept` as in `verify` (audit.h).
/// `threads` readers, each with a part of it; at least one. Memory does not grow with the ledger.
engine::Result<AuditReport> check_chain(const std::string& path, std::uint64_t last,
                                        const std::optional<Checkpoint>& kept, std::uint32_t threads);

}  // namespace ledger
