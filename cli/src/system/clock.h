// The only place of the program that asks the machine for the time.

#pragma once

#include <cstdint>
#include <string>

#include "engine/calendar.h"

namespace cli {

/// The calendar day where the machine is.
engine::Date local_today();

/// Now, in UTC.
engine::DateTime utc_now();

/// Now, in whole milliseconds since 1970-01-01T00:00:00Z.
std::int64_t utc_milliseconds();

/// `now` to the second, `2026-03-10T09:15:00Z`.
std::string stamp_of(const engine::DateTime& now);

}  // namespace cli
