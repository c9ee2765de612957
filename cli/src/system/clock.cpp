#include "system/clock.h"

#include <chrono>
#include <ctime>

namespace cli {

namespace {

engine::Date date_of(const std::tm& parts) {
  return {parts.tm_year + 1900, static_cast<std::uint8_t>(parts.tm_mon + 1),
          static_cast<std::uint8_t>(parts.tm_mday)};
}

}  // namespace

engine::Date local_today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  ::localtime_r(&now, &parts);
  return date_of(parts);
}

engine::DateTime utc_now() {
  using namespace std::chrono;
  const auto now = time_point_cast<nanoseconds>(system_clock::now());
  const auto day = floor<days>(now);
  const auto date = engine::date_from_days(day.time_since_epoch().count());
  return {*date, {(now - day).count(), *engine::offset_zone(0)}};
}

std::int64_t utc_milliseconds() {
  using namespace std::chrono;
  return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

std::string stamp_of(const engine::DateTime& now) {
  engine::DateTime whole = now;
  whole.time.nanos_of_day -= whole.time.nanos_of_day % 1'000'000'000;
  return engine::text_of(whole);
}

}  // namespace cli
