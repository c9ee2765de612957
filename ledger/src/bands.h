// How long pathology has been out, as a colour with a name.

#pragma once

#include <cstdint>
#include <optional>

#include "ledger/lists.h"
#include "ledger/protocol.h"

namespace ledger {

/// `since` is the day the pot was sent; `site_check` the earliest day on which a site check could fall due.
Band band_of(const engine::Date& since, const engine::Date& today,
             const std::optional<engine::Date>& site_check, const BandLimits& limits = {});

}  // namespace ledger
