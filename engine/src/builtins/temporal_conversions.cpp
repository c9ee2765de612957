// Built-ins that make dates, times and durations. Source: DMN 1.5, table 73 (conversion functions).

#include "builtins/arguments.h"

namespace engine {

namespace {

Value unreadable(const BuiltinCall& call, std::string_view expected) {
  return call.bad("`" + std::string(call[0].string()) + "` is no " + std::string(expected));
}

// The arguments as whole numbers; no value, with a diagnostic, when one is none.
std::optional<std::vector<std::int64_t>> whole_numbers(const BuiltinCall& call, std::size_t count) {
  std::vector<std::int64_t> numbers;
  for (std::size_t i = 0; i < count; ++i) {
    const auto number = call[i].is(Kind::number) ? call[i].number().to_int64() : std::nullopt;
    if (!number) {
      call.wrong(i, "whole number");
      return std::nullopt;
    }
    numbers.push_back(*number);
  }
  return numbers;
}

Value date_of_parts(const BuiltinCall& call) {
  const auto parts = whole_numbers(call, 3);
  if (!parts) return {};
  const auto date = make_date((*parts)[0], (*parts)[1], (*parts)[2]);
  return date ? Value::of(*date) : call.bad("there is no such day");
}

Value date(const BuiltinCall& call) {
  if (call.count() == 3) return date_of_parts(call);
  switch (call[0].kind()) {
    case Kind::date:
      return call[0];
    case Kind::date_time:
      return Value::of(call[0].date_time().date);
    case Kind::string: {
      const auto date = parse_date(call[0].string());
      return date ? Value::of(*date) : unreadable(call, "date");
    }
    default:
      return call.wrong(0, "string, date, or date and time");
  }
}

std::optional<Zone> zone_of(const Value& offset) {
  if (offset.is_null()) return Zone{};
  if (!offset.is(Kind::days_and_time) || offset.duration().nanos != 0) return std::nullopt;
  return offset_zone(offset.duration().seconds);
}

// The second may have a fraction, down to nanoseconds.
Value time_of_parts(const BuiltinCall& call) {
  const auto parts = whole_numbers(call, 2);
  if (!parts) return {};
  if (!call[2].is(Kind::number)) return call.wrong(2, "number");
  const auto zone = call.count() == 4 ? zone_of(call[3]) : Zone{};
  if (!zone) return call.bad("the offset must be null or a duration of at most 18 hours");
  const Decimal second = call[2].number();
  const auto whole = round(second, 0, Rounding::floor);
  const auto fraction = whole ? subtract(second, *whole) : std::nullopt;
  const auto nanos = fraction ? multiply(*fraction, Decimal(1'000'000'000)) : std::nullopt;
  const auto seconds = whole ? whole->to_int64() : std::nullopt;
  const auto nanoseconds = nanos ? nanos->truncated_to_int64() : std::nullopt;
  const auto time = seconds && nanoseconds
                        ? make_time((*parts)[0], (*parts)[1], *seconds, *nanoseconds, *zone)
                        : std::nullopt;
  return time ? Value::of(*time, call.arena()) : call.bad("there is no such time of day");
}

Value time(const BuiltinCall& call) {
  if (call.count() >= 3) return time_of_parts(call);
  switch (call[0].kind()) {
    case Kind::time:
      return call[0];
    case Kind::date_time:
      return Value::of(call[0].date_time().time, call.arena());
    case Kind::date:
      return Value::of(Time{0, {Zone::Kind::offset, 0, {}}}, call.arena());  // midnight UTC
    case Kind::string: {
      const auto time = parse_time(call[0].string());
      return time ? Value::of(*time, call.arena()) : unreadable(call, "time");
    }
    default:
      return call.wrong(0, "string, time, date, or date and time");
  }
}

std::optional<Date> date_part(const Value& value) {
  if (value.is(Kind::date)) return value.date();
  if (value.is(Kind::date_time)) return value.date_time().date;
  return std::nullopt;
}

Value date_and_time(const BuiltinCall& call) {
  if (call.count() == 2) {
    const auto date = date_part(call[0]);
    if (!date) return call.wrong(0, "date, or date and time");
    if (!call[1].is(Kind::time)) return call.wrong(1, "time");
    return Value::of(DateTime{*date, call[1].time()}, call.arena());
  }
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  const auto date_time = parse_date_time(call[0].string());
  return date_time ? Value::of(*date_time, call.arena()) : unreadable(call, "date and time");
}

Value duration(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  const auto parsed = parse_duration(call[0].string());
  if (!parsed) return unreadable(call, "duration");
  return std::visit([](const auto& length) { return Value::of(length); }, *parsed);
}

// The time of day does not count.
Value years_and_months_duration(const BuiltinCall& call) {
  const auto from = date_part(call[0]);
  if (!from) return call.wrong(0, "date, or date and time");
  const auto to = date_part(call[1]);
  if (!to) return call.wrong(1, "date, or date and time");
  return Value::of(months_between(*from, *to));
}

}  // namespace

void add_temporal_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> times = {{{"from"}, 1}, {{"hour", "minute", "second", "offset"}, 3}};
  const std::vector<Builtin> own = {
      {"date", date, {{{"from"}, 1}, {{"year", "month", "day"}, 3}}, Result::date},
      {"time", time, times, Result::time},
      {"date and time", date_and_time, {{{"from"}, 1}, {{"date", "time"}, 2}}, Result::date_time},
      {"duration", duration, {{{"from"}, 1}}, Result::any},
      {"years and months duration",
       years_and_months_duration,
       {{{"from", "to"}, 2}},
       Result::years_and_months},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
