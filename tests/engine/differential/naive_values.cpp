#include "engine/differential/naive_values.h"

namespace testing {

using engine::Kind;
using engine::Operation;

Plain plain(Truth truth) {
  return truth ? plain(*truth) : Plain();
}
Truth negated(Truth truth) {
  return truth ? Truth(!*truth) : truth;
}

namespace {

bool equal_lists(const Items& a, const Items& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (equal(a[i], b[i]) != true) return false;
  }
  return true;
}

const Plain* entry(const Plain& context, const std::string& key) {
  for (const auto& [name, value] : context.entries) {
    if (name == key) return &value;
  }
  return nullptr;
}

bool equal_contexts(const Plain& a, const Plain& b) {
  if (a.entries.size() != b.entries.size()) return false;
  for (const auto& [key, value] : a.entries) {
    const Plain* other = entry(b, key);
    if (!other || equal(value, *other) != true) return false;
  }
  return true;
}

// `(= 10)` is not `[10..10]`, and `(< 10)` is not `(null..10)`; `(< 10)` and `(> 10)` differ by their ends.
bool equal_ranges(const PlainRange& a, const PlainRange& b) {
  const auto form = [](const PlainRange& r) {
    return r.operation.empty() || r.operation == "=" || r.operation == "!=" ? r.operation : "open";
  };
  return form(a) == form(b) && a.start_included == b.start_included && a.end_included == b.end_included &&
         equal(a.start, b.start) == true && equal(a.end, b.end) == true;
}

int sign(std::strong_ordering ordering) {
  return ordering < 0 ? -1 : ordering > 0 ? 1 : 0;
}

}  // namespace

Truth equal(const Plain& a, const Plain& b) {
  if (a.is_null() || b.is_null()) return a.is_null() && b.is_null();
  if (a.kind != b.kind) return std::nullopt;
  switch (a.kind) {
    case Kind::boolean:
      return a.truth == b.truth;
    case Kind::number:
      return a.number == b.number;
    case Kind::string:
      return a.text == b.text;
    case Kind::date:
      return a.date == b.date;
    case Kind::years_and_months:
      return a.months == b.months;
    case Kind::days_and_time:
      return a.duration == b.duration;
    case Kind::list:
      return equal_lists(a.items, b.items);
    case Kind::context:
      return equal_contexts(a, b);
    case Kind::range:
      return equal_ranges(*a.range, *b.range);
    case Kind::function:
      return a.function == b.function;
    default:
      throw NotKnown("a value of another kind is compared");
  }
}

std::optional<int> order(const Plain& a, const Plain& b) {
  if (a.kind != b.kind) return std::nullopt;
  switch (a.kind) {
    case Kind::number:
      return sign(a.number <=> b.number);
    case Kind::string:
      return a.text < b.text ? -1 : a.text > b.text ? 1 : 0;
    case Kind::date:
      return sign(a.date <=> b.date);
    case Kind::years_and_months:
      return sign(a.months <=> b.months);
    case Kind::days_and_time:
      return sign(a.duration <=> b.duration);
    default:
      return std::nullopt;
  }
}

Truth contains(const PlainRange& range, const Plain& point) {
  if (range.operation == "=" || range.operation == "!=") {
    const auto place = order(point, range.start);
    if (!place) return std::nullopt;
    return (*place == 0) == (range.operation == "=");
  }
  const bool may_be_absent = !range.operation.empty();
  const auto side = [&](const Plain& low, const Plain& high, const Plain& end, bool included) -> Truth {
    if (end.is_null()) return may_be_absent ? Truth(true) : std::nullopt;
    const auto place = order(low, high);
    if (!place) return std::nullopt;
    return included ? *place <= 0 : *place < 0;
  };
  const Truth above = side(range.start, point, range.start, range.start_included);
  const Truth below = side(point, range.end, range.end, range.end_included);
  if (above == false || below == false) return false;
  if (!above || !below) return std::nullopt;
  return true;
}

namespace {

template <class T>
Plain result(const std::optional<T>& value) {
  return value ? plain(*value) : Plain();
}

engine::Decimal seconds_of(const engine::Duration& duration) {
  return engine::Decimal(duration.seconds);
}

// The generator makes durations of whole days and small whole factors only.
Plain scaled(const Plain& duration, Operation operation, const engine::Decimal& by) {
  const bool months = duration.is(Kind::years_and_months);
  const engine::Decimal amount =
      months ? engine::Decimal(duration.months.count) : seconds_of(duration.duration);
  const auto product =
      operation == Operation::multiply ? engine::multiply(amount, by) : engine::divide(amount, by);
  if (!product) return {};
  if (months) {
    const auto whole = product->truncated_to_int64();
    return whole ? plain(engine::Months{*whole}) : Plain();
  }
  const auto whole = product->to_int64();
  if (!whole) throw NotKnown("a duration with a fraction of a second");
  return plain(engine::Duration{*whole, 0});
}

Plain moved(const Plain& a, const Plain& duration, bool forward) {
  const Plain by = forward ? duration : negative(duration);
  if (by.is(Kind::years_and_months)) {
    if (a.is(Kind::years_and_months)) return result(engine::add(a.months, by.months));
    if (a.is(Kind::date)) return result(engine::add(a.date, by.months));
  }
  if (by.is(Kind::days_and_time)) {
    if (a.is(Kind::days_and_time)) return result(engine::add(a.duration, by.duration));
    if (a.is(Kind::date)) return result(engine::add(a.date, by.duration));
  }
  return {};
}

Plain numbers(Operation operation, const engine::Decimal& a, const engine::Decimal& b) {
  switch (operation) {
    case Operation::add:
      return result(engine::add(a, b));
    case Operation::subtract:
      return result(engine::subtract(a, b));
    case Operation::multiply:
      return result(engine::multiply(a, b));
    case Operation::divide:
      return result(engine::divide(a, b));
    default:
      return result(engine::power(a, b));
  }
}

bool is_duration(const Plain& value) {
  return value.is(Kind::years_and_months) || value.is(Kind::days_and_time);
}

}  // namespace

Plain negative(const Plain& value) {
  switch (value.kind) {
    case Kind::number:
      return plain(value.number.negated());
    case Kind::years_and_months:
      return result(engine::negated(value.months));
    case Kind::days_and_time:
      return result(engine::negated(value.duration));
    default:
      return {};
  }
}

Plain calculate(Operation operation, const Plain& a, const Plain& b) {
  if (a.is(Kind::number) && b.is(Kind::number)) return numbers(operation, a.number, b.number);
  switch (operation) {
    case Operation::add:
      if (a.is(Kind::string) && b.is(Kind::string)) return plain(a.text + b.text);
      if (is_duration(b)) return moved(a, b, true);
      return is_duration(a) ? moved(b, a, true) : Plain();
    case Operation::subtract:
      if (a.is(Kind::date) && b.is(Kind::date)) return plain(engine::between(b.date, a.date));
      return is_duration(b) ? moved(a, b, false) : Plain();
    case Operation::multiply:
      if (is_duration(a) && b.is(Kind::number)) return scaled(a, operation, b.number);
      return a.is(Kind::number) && is_duration(b) ? scaled(b, operation, a.number) : Plain();
    case Operation::divide:
      if (is_duration(a) && b.is(Kind::number)) return scaled(a, operation, b.number);
      if (a.is(Kind::years_and_months) && b.is(Kind::years_and_months)) {
        return result(engine::divide(engine::Decimal(a.months.count), engine::Decimal(b.months.count)));
      }
      if (a.is(Kind::days_and_time) && b.is(Kind::days_and_time)) {
        return result(engine::divide(seconds_of(a.duration), seconds_of(b.duration)));
      }
      return {};
    default:
      return {};
  }
}

}  // namespace testing
