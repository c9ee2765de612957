#include "evaluate/properties.h"

namespace engine {

namespace {

using Property = std::optional<Value>;

Property of_date(const Date& d, std::string_view name) {
  if (name == "year") return Value::number(d.year);
  if (name == "month") return Value::number(d.month);
  if (name == "day") return Value::number(d.day);
  if (name == "weekday") return Value::number(weekday(d));
  return std::nullopt;
}

constexpr std::int64_t nanos_per_second = 1'000'000'000;

Value zone_name(const Zone& zone) {
  return zone.kind == Zone::Kind::named ? Value::string(zone.name) : Value();
}

Property of_time(const Time& t, std::string_view name, Arena& arena) {
  const std::int64_t seconds = t.nanos_of_day / nanos_per_second;
  if (name == "hour") return Value::number(seconds / 3600);
  if (name == "minute") return Value::number(seconds / 60 % 60);
  if (name == "second") return Value::number(Decimal::of(t.nanos_of_day % (60 * nanos_per_second), -9), arena);
  if (name == "timezone") return zone_name(t.zone);
  return std::nullopt;
}

Value offset_value(const std::optional<Duration>& offset) { return offset ? Value::of(*offset) : Value(); }

Property of_months(Months m, std::string_view name) {
  if (name == "years") return Value::number(m.count / 12);
  if (name == "months") return Value::number(m.count % 12);
  return std::nullopt;
}

Property of_duration(Duration d, std::string_view name, Arena& arena) {
  // The parts of a negative duration are negative: count from zero outward.
  const bool negative = d.seconds < 0;
  const std::int64_t whole = negative && d.nanos > 0 ? d.seconds + 1 : d.seconds;
  const std::int64_t nanos = negative && d.nanos > 0 ? d.nanos - nanos_per_second : d.nanos;
  if (name == "days") return Value::number(whole / 86400);
  if (name == "hours") return Value::number(whole / 3600 % 24);
  if (name == "minutes") return Value::number(whole / 60 % 60);
  if (name == "seconds") return Value::number(Decimal::of(whole % 60 * nanos_per_second + nanos, -9), arena);
  return std::nullopt;
}

Property of_range(const Range& r, std::string_view name) {
  if (name == "start") return r.start;
  if (name == "end") return r.end;
  if (name == "start included") return Value::of(r.start_included);
  if (name == "end included") return Value::of(r.end_included);
  return std::nullopt;
}

}  // namespace

std::optional<Value> property_of(const Value& value, std::string_view name, Arena& arena) {
  switch (value.kind()) {
    case Kind::date: return of_date(value.date(), name);
    case Kind::time:
      if (name == "time offset") return offset_value(offset_of(value.time()));
      return of_time(value.time(), name, arena);
    case Kind::date_time: {
      const DateTime& date_time = value.date_time();
      if (name == "time offset") return offset_value(offset_of(date_time));
      if (const Property date = of_date(date_time.date, name)) return date;
      return of_time(date_time.time, name, arena);
    }
    case Kind::years_and_months: return of_months(value.months(), name);
    case Kind::days_and_time: return of_duration(value.duration(), name, arena);
    case Kind::range: return of_range(value.range(), name);
    default: return std::nullopt;
  }
}

}  // namespace engine
