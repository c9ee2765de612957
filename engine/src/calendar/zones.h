// Offsets from UTC, in seconds east of it. No value for a local time, and for a zone that the database lacks.

#pragma once

#include <cstdint>
#include <optional>

#include "engine/calendar.h"

namespace engine::detail {

/// At a local date and time. A local time that the clocks skip has the offset before the change, one that
/// they pass twice has that of the first pass (RFC 5545, 3.3.5).
std::optional<std::int32_t> offset_at_local(const Zone& zone, std::int64_t days, std::int64_t second_of_day);

/// At an instant, in seconds since 1970-01-01T00:00:00Z.
std::optional<std::int32_t> offset_at_instant(const Zone& zone, std::int64_t seconds);

/// For a time without a date: the smaller of the offsets of January and July 2026. A fixed year, because the
/// engine has no clock; a recent one, because London kept summer time all through 1970.
std::optional<std::int32_t> standard_offset(const Zone& zone);

}  // namespace engine::detail
