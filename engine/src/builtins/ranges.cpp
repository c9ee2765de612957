// How points and ranges lie to one another: before, meets, overlaps, includes ...
// Source: DMN 1.5, table 78 (range functions).
//
// The table spells every function out over ends and inclusion flags. One notion holds them all: an end that
// is not included lies a hair beyond its value, inward. A point is the range from itself to itself.

#include "builtins/arguments.h"

namespace engine {

namespace {

/// One end of a range: a value and a hair's breadth, or endless.
struct End {
  Value value;
  int hair = 0;     ///< +1: just after the value; -1: just before it.
  int endless = 0;  ///< -1: before everything; +1: after everything.
};

struct Stretch {
  End start, end;
};

std::partial_ordering compare(const End& a, const End& b) {
  if (a.endless != 0 || b.endless != 0) return a.endless <=> b.endless;
  const std::partial_ordering ordering = order(a.value, b.value);
  return ordering == 0 ? a.hair <=> b.hair : ordering;
}

bool less(const End& a, const End& b) {
  return compare(a, b) < 0;
}
bool less_or_equal(const End& a, const End& b) {
  return compare(a, b) <= 0;
}
bool same(const End& a, const End& b) {
  return compare(a, b) == 0;
}

using Relation = bool (*)(const Stretch&, const Stretch&);

bool before(const Stretch& a, const Stretch& b) {
  return less(a.end, b.start);
}
bool meets(const Stretch& a, const Stretch& b) {
  return same(a.end, b.start);
}
bool overlaps(const Stretch& a, const Stretch& b) {
  return less_or_equal(a.start, b.end) && less_or_equal(b.start, a.end);
}
bool overlaps_before(const Stretch& a, const Stretch& b) {
  return less(a.start, b.start) && less_or_equal(b.start, a.end) && less_or_equal(a.end, b.end);
}
bool overlaps_after(const Stretch& a, const Stretch& b) {
  return less(b.start, a.start) && less_or_equal(a.start, b.end) && less_or_equal(b.end, a.end);
}
bool includes(const Stretch& a, const Stretch& b) {
  return less_or_equal(a.start, b.start) && less_or_equal(b.end, a.end);
}
bool finishes(const Stretch& a, const Stretch& b) {
  return same(a.end, b.end) && less_or_equal(b.start, a.start);
}
bool starts(const Stretch& a, const Stretch& b) {
  return same(a.start, b.start) && less_or_equal(a.end, b.end);
}
bool coincides(const Stretch& a, const Stretch& b) {
  return same(a.start, b.start) && same(a.end, b.end);
}

template <Relation relation>
bool reversed(const Stretch& a, const Stretch& b) {
  return relation(b, a);
}

// No value for a range that is no stretch: `(!= 10)`, or `[null..10]`, whose start is not known.
std::optional<Stretch> stretch_of(const Range& range) {
  const bool open = range.form != Range::Form::interval;
  if (range.form == Range::Form::not_equal) return std::nullopt;
  if (!open && (range.start.is_null() || range.end.is_null())) return std::nullopt;
  Stretch stretch{{range.start, range.start_included ? 0 : 1, 0},
                  {range.end, range.end_included ? 0 : -1, 0}};
  if (range.start.is_null()) stretch.start = {{}, 0, -1};
  if (range.end.is_null()) stretch.end = {{}, 0, 1};
  return stretch;
}

enum class Takes { range, point_or_range };

std::optional<Stretch> stretch_of(const BuiltinCall& call, std::size_t i, Takes takes) {
  const Value& value = call[i];
  if (value.is(Kind::range)) {
    const std::optional<Stretch> stretch = stretch_of(value.range());
    if (!stretch) call.bad("a range without a known start and end has no place");
    return stretch;
  }
  if (takes == Takes::range || !is_ordered(value.kind())) {
    call.wrong(i, takes == Takes::range ? "range" : "range or a value that has an order");
    return std::nullopt;
  }
  return Stretch{{value, 0, 0}, {value, 0, 0}};
}

template <Relation relation, Takes first, Takes second>
Value related(const BuiltinCall& call) {
  const std::optional<Stretch> a = stretch_of(call, 0, first);
  const std::optional<Stretch> b = a ? stretch_of(call, 1, second) : std::nullopt;
  if (!b) return {};
  // The ends of one range go together already, so one pair that has both values tells.
  for (const auto* left : {&a->start, &a->end}) {
    for (const auto* right : {&b->start, &b->end}) {
      if (compare(*left, *right) == std::partial_ordering::unordered) {
        return call.bad("a " + std::string(type_name(left->value.kind())) + " and a " +
                        std::string(type_name(right->value.kind())) + " with these values cannot be ordered");
      }
    }
  }
  return Value::of(relation(*a, *b));
}

// Points coincide with points, ranges with ranges.
Value coincide(const BuiltinCall& call) {
  if (call[0].is(Kind::range)) return related<coincides, Takes::range, Takes::range>(call);
  if (call[1].is(Kind::range)) return call.wrong(0, "range");
  return related<coincides, Takes::point_or_range, Takes::point_or_range>(call);
}

using Names = std::vector<std::string_view>;

std::vector<Signature> named(std::initializer_list<Names> names) {
  std::vector<Signature> signatures;
  for (const Names& pair : names) signatures.push_back({pair, 2});
  return signatures;
}

}  // namespace

void add_range_builtins(std::vector<Builtin>& all) {
  constexpr Takes any = Takes::point_or_range;
  constexpr Takes range = Takes::range;
  const Names ranges = {"range1", "range2"};
  const Names points = {"point1", "point2"};
  const Names point_first = {"point", "range"};
  const Names range_first = {"range", "point"};
  // Two forms of `before` have the names `point` and `range`, in either order: by name nobody could tell
  // which is meant, so those names are refused.
  const auto any_two = named({points, ranges});
  const auto of_ranges = named({ranges});
  const auto by_first = named({point_first, ranges});
  const auto by_second = named({range_first, ranges});
  constexpr auto result = Type::Kind::boolean;
  const std::vector<Builtin> own = {
      {"before", related<before, any, any>, any_two, result},
      {"after", related<reversed<before>, any, any>, any_two, result},
      {"meets", related<meets, range, range>, of_ranges, result},
      {"met by", related<reversed<meets>, range, range>, of_ranges, result},
      {"overlaps", related<overlaps, range, range>, of_ranges, result},
      {"overlaps before", related<overlaps_before, range, range>, of_ranges, result},
      {"overlaps after", related<overlaps_after, range, range>, of_ranges, result},
      {"finishes", related<finishes, any, range>, by_first, result},
      {"finished by", related<reversed<finishes>, range, any>, by_second, result},
      {"includes", related<includes, range, any>, by_second, result},
      {"during", related<reversed<includes>, any, range>, by_first, result},
      {"starts", related<starts, any, range>, by_first, result},
      {"started by", related<reversed<starts>, range, any>, by_second, result},
      {"coincides", coincide, named({points, ranges}), result},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
