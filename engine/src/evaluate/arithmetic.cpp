#include "evaluate/operators.h"

namespace engine {

namespace {

// Hours of day and nanoseconds do not matter to the calendar's own types; numbers meet durations here.
std::optional<Months> scale(Months months, Operation operation, const Decimal& by) {
  const std::optional<Decimal> product =
      operation == Operation::multiply ? multiply(months.count, by) : divide(months.count, by);
  if (!product) return std::nullopt;
  const std::optional<std::int64_t> whole = product->truncated_to_int64();
  if (!whole) return std::nullopt;
  return Months{*whole};
}

Decimal seconds_of(Duration d) {
  const Decimal nanos = Decimal::of(d.nanos, -9);
  return *add(Decimal(d.seconds), nanos);
}

std::optional<Duration> duration_of(const Decimal& seconds) {
  const std::optional<Decimal> rounded = round(seconds, 9, Rounding::half_even);
  const std::optional<Decimal> floor = rounded ? round(*rounded, 0, Rounding::floor) : std::nullopt;
  if (!floor) return std::nullopt;
  const std::optional<std::int64_t> whole = floor->to_int64();
  if (!whole) return std::nullopt;
  const std::optional<Decimal> fraction = subtract(*rounded, *floor);
  const std::optional<Decimal> nanos = fraction ? multiply(*fraction, Decimal(1'000'000'000)) : std::nullopt;
  if (!nanos) return std::nullopt;
  return Duration{*whole, static_cast<std::int32_t>(*nanos->to_int64())};
}

std::optional<Duration> scale(Duration duration, Operation operation, const Decimal& by) {
  const std::optional<Decimal> product =
      operation == Operation::multiply ? multiply(seconds_of(duration), by) : divide(seconds_of(duration), by);
  return product ? duration_of(*product) : std::nullopt;
}

Value boxed(const std::optional<Decimal>& number, Arena& arena) {
  return number ? Value::number(*number, arena) : Value();
}
template <class T>
Value plain(const std::optional<T>& value) {
  return value ? Value::of(*value) : Value();
}

Value numbers(Operation operation, const Value& a, const Value& b, Arena& arena) {
  if (a.is_plain_integer() && b.is_plain_integer()) {
    std::int64_t result = 0;
    const bool overflow = operation == Operation::add
                              ? __builtin_add_overflow(a.plain_integer(), b.plain_integer(), &result)
                          : operation == Operation::subtract
                              ? __builtin_sub_overflow(a.plain_integer(), b.plain_integer(), &result)
                          : operation == Operation::multiply
                              ? __builtin_mul_overflow(a.plain_integer(), b.plain_integer(), &result)
                              : true;
    // The least int64 has no magnitude in the small form.
    if (!overflow && result != INT64_MIN) return Value::number(result);
  }
  switch (operation) {
    case Operation::add: return boxed(add(a.number(), b.number()), arena);
    case Operation::subtract: return boxed(subtract(a.number(), b.number()), arena);
    case Operation::multiply: return boxed(multiply(a.number(), b.number()), arena);
    case Operation::divide: return boxed(divide(a.number(), b.number()), arena);
    default: return boxed(power(a.number(), b.number()), arena);
  }
}

DateTime midnight_utc(const Date& date) {
  Time midnight;
  midnight.zone = {Zone::Kind::offset, 0, {}};
  return {date, midnight};
}

// Anything plus or minus a duration; null when the two do not go together.
Value moved(const Value& a, const Value& duration, bool forward, Arena& arena) {
  if (duration.is(Kind::years_and_months)) {
    const std::optional<Months> months = forward ? duration.months() : negated(duration.months());
    if (!months) return {};
    if (a.is(Kind::years_and_months)) return plain(add(a.months(), *months));
    if (a.is(Kind::date)) return plain(add(a.date(), *months));
    if (a.is(Kind::date_time)) {
      const std::optional<DateTime> result = add(a.date_time(), *months);
      return result ? Value::of(*result, arena) : Value();
    }
    return {};
  }
  const std::optional<Duration> by = forward ? duration.duration() : negated(duration.duration());
  if (!by) return {};
  if (a.is(Kind::days_and_time)) return plain(add(a.duration(), *by));
  if (a.is(Kind::date)) return plain(add(a.date(), *by));
  if (a.is(Kind::time)) return Value::of(add(a.time(), *by), arena);
  if (a.is(Kind::date_time)) {
    const std::optional<DateTime> result = add(a.date_time(), *by);
    return result ? Value::of(*result, arena) : Value();
  }
  return {};
}

bool is_duration(const Value& v) { return v.is(Kind::years_and_months) || v.is(Kind::days_and_time); }

Value sum(Operation operation, const Value& a, const Value& b, Arena& arena) {
  const bool adding = operation == Operation::add;
  if (a.is(Kind::string) && b.is(Kind::string) && adding) {
    const std::size_t size = a.string().size() + b.string().size();
    char* text = arena.allocate<char>(size + 1);
    a.string().copy(text, a.string().size());
    b.string().copy(text + a.string().size(), b.string().size());
    return Value::string(std::string_view(text, size));
  }
  if (is_duration(b)) return moved(a, b, adding, arena);
  if (is_duration(a) && adding) return moved(b, a, true, arena);
  if (adding) return {};
  if (a.is(Kind::date) && b.is(Kind::date)) return Value::of(between(b.date(), a.date()));
  if (a.is(Kind::time) && b.is(Kind::time)) return plain(between(b.time(), a.time()));
  const auto instant = [](const Value& v) { return v.is(Kind::date) ? midnight_utc(v.date()) : v.date_time(); };
  const auto has_date = [](const Value& v) { return v.is(Kind::date) || v.is(Kind::date_time); };
  if (has_date(a) && has_date(b)) return plain(between(instant(b), instant(a)));
  return {};
}

Value product(Operation operation, const Value& a, const Value& b, Arena& arena) {
  if (operation == Operation::power) return {};
  if (is_duration(a) && b.is(Kind::number)) {
    return a.is(Kind::years_and_months) ? plain(scale(a.months(), operation, b.number()))
                                        : plain(scale(a.duration(), operation, b.number()));
  }
  if (a.is(Kind::number) && is_duration(b) && operation == Operation::multiply) return product(operation, b, a, arena);
  if (operation == Operation::divide && a.kind() == b.kind()) {
    if (a.is(Kind::years_and_months)) return boxed(divide(a.months().count, b.months().count), arena);
    if (a.is(Kind::days_and_time)) return boxed(divide(seconds_of(a.duration()), seconds_of(b.duration())), arena);
  }
  return {};
}

}  // namespace

Value arithmetic(State& state, const Code& at, Operation operation, const Value& a, const Value& b) {
  state.calculates_with(a);
  state.calculates_with(b);
  Value result;
  if (a.is(Kind::number) && b.is(Kind::number)) {
    result = numbers(operation, a, b, state.arena);
  } else if (operation == Operation::add || operation == Operation::subtract) {
    result = sum(operation, a, b, state.arena);
  } else {
    result = product(operation, a, b, state.arena);
  }
  if (result.is_null()) {
    return state.fault(at, "no_arithmetic",
                       "`" + std::string(text_of(operation)) + "` has no result for a " +
                           std::string(type_name(a.kind())) + " and a " + std::string(type_name(b.kind())) +
                           " with these values");
  }
  if (result.is(Kind::string) && result.string().size() > state.budget.string_length) {
    state.exhausted = true;
    state.has_error = true;
    return state.fault(at, "budget_exhausted", "a string became longer than " +
                                                   std::to_string(state.budget.string_length) + " bytes");
  }
  return result;
}

}  // namespace engine
