// A clock that stands still until a test moves it.

#pragma once

#include "ledger/clock.h"

namespace support {

class FixedClock : public ledger::Clock {
 public:
  /// Stands at nine in the morning of `day`.
  explicit FixedClock(engine::Date day) { set(day); }
  explicit FixedClock(std::string_view day) { set(engine::parse_date(day).value()); }

  void set(engine::Date day) { day_ = day; }
  void set(std::string_view day) { set(engine::parse_date(day).value()); }

  ledger::Instant now() const override {
    constexpr std::int64_t hour = 3'600'000;
    return {engine::days_since_epoch(day_) * 24 * hour + 9 * hour};
  }
  engine::Date today() const override { return day_; }

 private:
  engine::Date day_;
};

}  // namespace support
