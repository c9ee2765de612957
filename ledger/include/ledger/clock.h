// The time source, an interface: only the command line asks the machine for the time.

#pragma once

#include <cstdint>
#include <string>

#include "engine/calendar.h"

namespace ledger {

/// A point on the UTC time line, in whole milliseconds since 1970-01-01T00:00:00Z.
struct Instant {
  std::int64_t milliseconds = 0;
};

/// ISO 8601 with milliseconds: `2026-03-10T09:15:00.000Z`.
std::string text_of(Instant instant);

class Clock {
 public:
  virtual ~Clock() = default;
  /// When an entry is written.
  virtual Instant now() const = 0;
  /// The calendar day where the unit is. Lists, late clocks and advice count from it.
  virtual engine::Date today() const = 0;
};

/// Who writes, and by which clock. Both must outlive the call they are passed to.
struct Author {
  std::string actor;  ///< The person or machine that acts: `j.smith`, `inbox`. Never empty.
  const Clock& clock;
  /// The account of the operating system that decides what may be done (accounts.h). Empty: `actor` is it.
  std::string account = {};
};

}  // namespace ledger
