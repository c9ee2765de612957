// How many stand on a list of which only a page is read (lists.h).

#pragma once

#include <cstdint>
#include <optional>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"

namespace ledger {

/// Fail as ledger.h says.
engine::Result<std::uint64_t> count_due(const Ledger& ledger, const DueRange& range,
                                        const engine::Date& today);
engine::Result<std::uint64_t> count_overdue(const Ledger& ledger, const engine::Date& today);
engine::Result<std::uint64_t> count_to_vet(const Ledger& ledger, const std::optional<engine::Date>& to,
                                           const engine::Date& today);

}  // namespace ledger
