// Verification of a file as it is: nothing of it is made anew first.

#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "engine/result.h"
#include "ledger/audit.h"
#include "ledger/checkpoint.h"

namespace ledger {

enum class Tables : std::uint8_t { compared, not_compared };

/// As `verify` (audit.h), of a file that is known to be a ledger. Tables of an earlier version cannot be
/// compared: they are made anew when the ledger is next opened.
engine::Result<AuditReport> inspect(const std::string& path, const std::optional<Checkpoint>& kept,
                                    Tables tables = Tables::compared);

}  // namespace ledger
