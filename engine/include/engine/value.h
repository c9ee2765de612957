// One FEEL value of any type, null included.
//
// A Value is 16 bytes and copied bit by bit. What does not fit lives in an Arena; the value is valid as long
// as that arena is. Strings are UTF-8; lengths and positions in FEEL count code points. Source:
// DMN 1.5, 10.3.2 (types and values).

#pragma once

#include <concepts>
#include <cstdint>
#include <cstring>
#include <span>
#include <string>
#include <string_view>

#include "engine/arena.h"
#include "engine/calendar.h"
#include "engine/decimal.h"

namespace engine {

enum class Kind : std::uint8_t {
  null,
  boolean,
  number,
  string,
  date,
  time,
  date_time,
  years_and_months,
  days_and_time,
  list,
  context,
  range,
  function,
  open_fact,  ///< A fact of the record that is not known. Never the value of an expression: reading it asks
              ///< the evaluation what the fact is taken to be (evaluation.h).
};

class Value;
struct Function;  // engine/src/evaluate: parameters, body and what it captured

/// `a == b` for the short terms and keys of records, without a call: they are compared all the time.
inline bool same_text(std::string_view a, std::string_view b) {
  const std::size_t n = a.size();
  if (n != b.size()) return false;
  if (n > 16) return std::memcmp(a.data(), b.data(), n) == 0;
  const auto ends_alike = [&](auto whole) {
    auto first = whole, second = whole, other_first = whole, other_second = whole;
    std::memcpy(&first, a.data(), sizeof whole);
    std::memcpy(&second, a.data() + n - sizeof whole, sizeof whole);
    std::memcpy(&other_first, b.data(), sizeof whole);
    std::memcpy(&other_second, b.data() + n - sizeof whole, sizeof whole);
    return first == other_first && second == other_second;
  };
  if (n >= 8) return ends_alike(std::uint64_t{});
  if (n >= 4) return ends_alike(std::uint32_t{});
  for (std::size_t i = 0; i < n; ++i) {
    if (a[i] != b[i]) return false;
  }
  return true;
}

/// Ordered keys with their values. Equality does not look at the order.
struct Context {
  std::uint32_t size = 0;
  const std::string_view* keys = nullptr;
  const Value* values = nullptr;

  /// The position of `key`, or `size`. `hint` is tried first.
  std::uint32_t position(std::string_view key, std::uint32_t hint = 0) const {
    if (hint < size && same_text(keys[hint], key)) return hint;
    for (std::uint32_t i = 0; i < size; ++i) {
      if (same_text(keys[i], key)) return i;
    }
    return size;
  }
};

struct Range;

class Value {
 public:
  constexpr Value() : kind_(Kind::null), exponent_(0), extra_(0), whole_(0) {}

  static Value of(std::same_as<bool> auto b) { return {Kind::boolean, 0, 0, b ? 1 : 0}; }
  static Value number(std::int64_t whole) { return {Kind::number, 0, 0, whole}; }
  /// Small numbers stand in the value itself, others in `arena`.
  static Value number(const Decimal& decimal, Arena& arena) {
    if (decimal.is_small()) {
      return {Kind::number, static_cast<std::int8_t>(decimal.exponent()), 0, decimal.small_coefficient()};
    }
    return {Kind::number, 0, boxed, arena.make<Decimal>(decimal)};
  }
  /// This number as one that was taken to stand for all between its neighbours: comparing it is right for each of them,
  /// calculating with it is not.
  Value standing_for_others() const {
    Value marked = *this;
    marked.extra_ |= sample;
    return marked;
  }
  /// Keeps a pointer to the characters: they must outlive the value.
  static Value string(std::string_view text) {
    return {Kind::string, 0, static_cast<std::uint32_t>(text.size()), text.data()};
  }
  static Value string(std::string_view text, Arena& arena) { return string(arena.keep(text)); }
  static Value of(const Date& d) {
    return {Kind::date, 0, static_cast<std::uint32_t>(d.year), std::int64_t{d.month} << 8 | d.day};
  }
  static Value of(const Time& time, Arena& arena) { return {Kind::time, 0, 0, arena.make<Time>(time)}; }
  static Value of(const DateTime& date_time, Arena& arena) {
    return {Kind::date_time, 0, 0, arena.make<DateTime>(date_time)};
  }
  static Value of(Months months) { return {Kind::years_and_months, 0, 0, months.count}; }
  static Value of(Duration duration) {
    return {Kind::days_and_time, 0, static_cast<std::uint32_t>(duration.nanos), duration.seconds};
  }
  static Value list(std::span<const Value> items) {
    return {Kind::list, 0, static_cast<std::uint32_t>(items.size()), static_cast<const void*>(items.data())};
  }
  static Value of(const Context* context) { return {Kind::context, 0, 0, static_cast<const void*>(context)}; }
  static Value of(const Range* range) { return {Kind::range, 0, 0, static_cast<const void*>(range)}; }
  static Value of(const Function* function) {
    return {Kind::function, 0, 0, static_cast<const void*>(function)};
  }
  /// The fact number `id` of the record that is being evaluated.
  static Value open_fact(std::uint32_t id) { return {Kind::open_fact, 0, id, std::int64_t{0}}; }

  Kind kind() const { return kind_; }
  bool is_null() const { return kind_ == Kind::null; }
  bool is_true() const { return kind_ == Kind::boolean && whole_ != 0; }
  bool is_false() const { return kind_ == Kind::boolean && whole_ == 0; }
  bool is(Kind kind) const { return kind_ == kind; }

  // Each only for its own kind.
  bool boolean() const { return whole_ != 0; }
  Decimal number() const {
    if ((extra_ & boxed) != 0) return *static_cast<const Decimal*>(pointer_);
    return Decimal::of(whole_, exponent_);
  }
  std::string_view string() const { return {static_cast<const char*>(pointer_), extra_}; }
  Date date() const {
    return {static_cast<std::int32_t>(extra_), static_cast<std::uint8_t>(whole_ >> 8),
            static_cast<std::uint8_t>(whole_ & 0xff)};
  }
  const Time& time() const { return *static_cast<const Time*>(pointer_); }
  const DateTime& date_time() const { return *static_cast<const DateTime*>(pointer_); }
  Months months() const { return {whole_}; }
  Duration duration() const { return {whole_, static_cast<std::int32_t>(extra_)}; }
  std::span<const Value> list() const { return {static_cast<const Value*>(pointer_), extra_}; }
  const Context& context() const { return *static_cast<const Context*>(pointer_); }
  const Range& range() const { return *static_cast<const Range*>(pointer_); }
  const Function& function() const { return *static_cast<const Function*>(pointer_); }
  std::uint32_t fact() const { return extra_; }

  /// A whole number that fits, stored in the value itself: the fast path of comparisons and sums.
  bool stands_for_others() const { return kind_ == Kind::number && (extra_ & sample) != 0; }
  bool is_plain_integer() const { return kind_ == Kind::number && extra_ == 0 && exponent_ == 0; }
  std::int64_t plain_integer() const { return whole_; }

 private:
  static constexpr std::uint32_t boxed = 1, sample = 2;

  Value(Kind kind, std::int8_t exponent, std::uint32_t extra, std::int64_t whole)
      : kind_(kind), exponent_(exponent), extra_(extra), whole_(whole) {}
  Value(Kind kind, std::int8_t exponent, std::uint32_t extra, const void* pointer)
      : kind_(kind), exponent_(exponent), extra_(extra), pointer_(pointer) {}

  Kind kind_;
  std::int8_t exponent_;  // of a small number
  std::uint32_t
      extra_;  // string and list: size; date: year; duration: nanoseconds; number: boxed, sample; fact: id
  union {
    std::int64_t whole_;
    const void* pointer_;
  };
};
static_assert(sizeof(Value) == 16 && std::is_trivially_copyable_v<Value>);

/// `[start..end]`, `(< end)`, ... An end that is absent is null, and its flag false.
struct Range {
  Value start;
  Value end;
  bool start_included = false;
  bool end_included = false;
  /// `(< 10)`, `(>= 3)`, `(= 10)`: how it was written matters to equality and text.
  enum class Form : std::uint8_t {
    interval,
    less,
    less_or_equal,
    greater,
    greater_or_equal,
    equal,
    not_equal
  };
  Form form = Form::interval;
};

/// A deep copy into `arena`.
Value copy(const Value& value, Arena& arena);

/// The value as a FEEL literal on one line: strings quoted and escaped, `[1, 2]`, `{a: "x"}`, `null`,
/// `@"2024-02-29"` as `date("2024-02-29")` is read back the same.
std::string literal_of(const Value& value);

/// FEEL's `string()` of the value: as `literal_of`, but a string itself has no quotes, and dates, times and
/// durations stand bare.
std::string text_of(const Value& value);

/// FEEL's name of the type of `value`: `number`, `years and months duration`, `list` ...
std::string_view type_name(Kind kind);

/// A context with `keys` and `values` of equal length; both must live as long as `arena`.
Value make_context(std::span<const std::string_view> keys, std::span<const Value> values, Arena& arena);

}  // namespace engine
