#include "evaluate/convert.h"
#include "evaluate/operators.h"

namespace engine {

namespace {

Logic equal_lists(State& state, std::span<const Value> a, std::span<const Value> b) {
  if (a.size() != b.size()) return Logic::no;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (equal(state, a[i], b[i]) != Logic::yes) return Logic::no;
  }
  return Logic::yes;
}

Logic equal_contexts(State& state, const Context& a, const Context& b) {
  if (a.size != b.size) return Logic::no;
  for (std::uint32_t i = 0; i < a.size; ++i) {
    const std::uint32_t at = b.position(a.keys[i], i);
    if (at == b.size) return Logic::no;
    if (equal(state, state.settled(a.values[i]), state.settled(b.values[at])) != Logic::yes) return Logic::no;
  }
  return Logic::yes;
}

bool equal_end(State& state, const Value& a, const Value& b) {
  if (a.is_null() || b.is_null()) return a.is_null() && b.is_null();
  return equal(state, a, b) == Logic::yes;
}

Logic equal_ranges(State& state, const Range& a, const Range& b) {
  const auto odd = [](const Range& r) { return r.form == Range::Form::equal || r.form == Range::Form::not_equal; };
  if ((odd(a) || odd(b)) && a.form != b.form) return Logic::no;
  const auto open = [](const Range& r) { return r.form != Range::Form::interval && r.form != Range::Form::equal; };
  if (open(a) != open(b)) return Logic::no;  // `(< 10)` is not `(null..10)`
  return logic(a.start_included == b.start_included && a.end_included == b.end_included &&
               equal_end(state, a.start, b.start) && equal_end(state, a.end, b.end));
}

}  // namespace

bool is_ordered(Kind kind) {
  switch (kind) {
    case Kind::number: case Kind::string: case Kind::date: case Kind::time: case Kind::date_time:
    case Kind::years_and_months: case Kind::days_and_time:
      return true;
    default:
      return false;
  }
}

Logic equal(State& state, const Value& a, const Value& b) {
  if (a.is_null() || b.is_null()) return logic(a.is_null() && b.is_null());
  if (a.kind() != b.kind()) return Logic::unknown;
  switch (a.kind()) {
    case Kind::boolean: return logic(a.boolean() == b.boolean());
    case Kind::number:
      if (a.is_plain_integer() && b.is_plain_integer()) return logic(a.plain_integer() == b.plain_integer());
      return logic(a.number() == b.number());
    case Kind::string: return logic(a.string() == b.string());
    case Kind::date: return logic(a.date() == b.date());
    case Kind::time: return logic(equal(a.time(), b.time()));
    case Kind::date_time: return logic(equal(a.date_time(), b.date_time()));
    case Kind::years_and_months: return logic(a.months() == b.months());
    case Kind::days_and_time: return logic(a.duration() == b.duration());
    case Kind::list: return equal_lists(state, a.list(), b.list());
    case Kind::context: return equal_contexts(state, a.context(), b.context());
    case Kind::range: return equal_ranges(state, a.range(), b.range());
    case Kind::function: return logic(&a.function() == &b.function());
    case Kind::null: case Kind::open_fact: break;
  }
  return Logic::unknown;
}

std::partial_ordering order(const Value& a, const Value& b) {
  if (a.kind() != b.kind()) return std::partial_ordering::unordered;
  switch (a.kind()) {
    case Kind::number:
      if (a.is_plain_integer() && b.is_plain_integer()) return a.plain_integer() <=> b.plain_integer();
      return a.number() <=> b.number();
    case Kind::string: return a.string().compare(b.string()) <=> 0;  // UTF-8 keeps the order of code points
    case Kind::date: return a.date() <=> b.date();
    case Kind::time: return compare(a.time(), b.time());
    case Kind::date_time: return compare(a.date_time(), b.date_time());
    case Kind::years_and_months: return a.months() <=> b.months();
    case Kind::days_and_time: return a.duration() <=> b.duration();
    default: return std::partial_ordering::unordered;
  }
}

Logic compare(State& state, const Code& at, Operation operation, const Value& a, const Value& b) {
  if (operation == Operation::equal || operation == Operation::not_equal) {
    const Logic result = equal(state, a, b);
    if (result == Logic::unknown) {
      state.fault(at, "type_clash", "a " + std::string(type_name(a.kind())) + " cannot be compared with a " +
                                        std::string(type_name(b.kind())));
    }
    return operation == Operation::equal ? result : negate(result);
  }
  if (a.is_null() || b.is_null() || a.kind() != b.kind() || !is_ordered(a.kind())) {
    state.fault(at, "type_clash", "a " + std::string(type_name(a.kind())) + " cannot be ordered with a " +
                                      std::string(type_name(b.kind())));
    return Logic::unknown;
  }
  const std::partial_ordering ordering = order(a, b);
  if (ordering == std::partial_ordering::unordered) {
    state.fault(at, "type_clash", "a local time cannot be ordered with a zoned one");
    return Logic::unknown;
  }
  switch (operation) {
    case Operation::less: return logic(ordering < 0);
    case Operation::less_or_equal: return logic(ordering <= 0);
    case Operation::greater: return logic(ordering > 0);
    default: return logic(ordering >= 0);
  }
}

Logic contains(const Range& range, const Value& point) {
  using Form = Range::Form;
  if (range.form == Form::equal || range.form == Form::not_equal) {
    const std::partial_ordering ordering = order(point, range.start);
    if (ordering == std::partial_ordering::unordered) return Logic::unknown;
    return logic((ordering == 0) == (range.form == Form::equal));
  }
  const auto side = [&](const Value& end, bool included, bool upper, bool absent_is_open) {
    if (end.is_null()) return absent_is_open ? Logic::yes : Logic::unknown;
    const std::partial_ordering ordering = upper ? order(point, end) : order(end, point);
    if (ordering == std::partial_ordering::unordered) return Logic::unknown;
    return logic(included ? ordering <= 0 : ordering < 0);
  };
  const bool open = range.form != Form::interval;
  const Logic above = side(range.start, range.start_included, false, open);
  const Logic below = side(range.end, range.end_included, true, open);
  if (above == Logic::no || below == Logic::no) return Logic::no;
  if (above == Logic::unknown || below == Logic::unknown) return Logic::unknown;
  return Logic::yes;
}

bool identical(State& state, const Value& a, const Value& b) {
  if (a.kind() != b.kind()) return false;
  switch (a.kind()) {
    case Kind::null: return true;
    case Kind::time: return same_fields(a.time(), b.time());
    case Kind::date_time: return same_fields(a.date_time(), b.date_time());
    case Kind::list: {
      if (a.list().size() != b.list().size()) return false;
      for (std::size_t i = 0; i < a.list().size(); ++i) {
        if (!identical(state, a.list()[i], b.list()[i])) return false;
      }
      return true;
    }
    default: return equal(state, a, b) == Logic::yes;
  }
}

Value make_range(State& state, const Code& at, const Range& range) {
  const Value& a = range.start;
  const Value& b = range.end;
  const bool orderable = (a.is_null() || is_ordered(a.kind())) && (b.is_null() || is_ordered(b.kind()));
  const bool both = !a.is_null() && !b.is_null();
  if (!orderable || (both && a.kind() != b.kind())) {
    return state.fault(at, "bad_range", "a range needs two ends of the same ordered type, not a " +
                                            std::string(type_name(a.kind())) + " and a " +
                                            std::string(type_name(b.kind())));
  }
  if (both && !(order(a, b) <= 0)) {
    return state.fault(at, "bad_range", "the start of the range lies after its end");
  }
  return Value::of(static_cast<const Range*>(state.arena.make<Range>(range)));
}

}  // namespace engine
