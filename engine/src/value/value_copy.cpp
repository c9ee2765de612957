#include "value/value_copy.h"

#include <algorithm>
#include <vector>

namespace engine {

namespace {

/// Values that are still to be copied.
struct Rest {
  const Value* from;
  Value* to;
  std::size_t count;
};

Value* room_for(std::size_t count, Arena& arena) {
  Value* room = arena.allocate<Value>(count);
  std::fill(room, room + count, Value());
  return room;
}

Value copied_list(std::span<const Value> items, Arena& arena, std::vector<Rest>& rest) {
  Value* room = room_for(items.size(), arena);
  rest.push_back({items.data(), room, items.size()});
  return Value::list({room, items.size()});
}

Value copied_context(const Context& context, Arena& arena, std::vector<Rest>& rest) {
  Value* room = room_for(context.size, arena);
  rest.push_back({context.values, room, context.size});
  std::string_view* keys = arena.allocate<std::string_view>(context.size);
  for (std::uint32_t i = 0; i < context.size; ++i)
    new (keys + i) std::string_view(arena.keep(context.keys[i]));
  return make_context({keys, context.size}, {room, context.size}, arena);
}

Value copied_range(const Range& range, Arena& arena, std::vector<Rest>& rest) {
  Range* twin = arena.make<Range>(range);
  rest.push_back({&range.start, &twin->start, 1});
  rest.push_back({&range.end, &twin->end, 1});
  return Value::of(static_cast<const Range*>(twin));
}

// What the value points to directly; what lies further down goes to `rest`.
Value copied(const Value& value, Arena& arena, std::vector<Rest>& rest) {
  switch (value.kind()) {
    case Kind::number:
      return Value::number(value.number(), arena);
    case Kind::string:
      return Value::string(value.string(), arena);
    case Kind::time:
      return Value::of(value.time(), arena);
    case Kind::date_time:
      return Value::of(value.date_time(), arena);
    case Kind::list:
      return copied_list(value.list(), arena, rest);
    case Kind::context:
      return copied_context(value.context(), arena, rest);
    case Kind::range:
      return copied_range(value.range(), arena, rest);
    // A function points to compiled code and the variables around it: it lives as long as those do.
    default:
      return value;
  }
}

}  // namespace

// Without recursion: values may be nested deeper than the machine's stack.
Value copy(const Value& value, Arena& arena, const std::function<Value(const Value&)>& look) {
  Value result;
  std::vector<Rest> rest = {{&value, &result, 1}};
  while (!rest.empty()) {
    const Rest next = rest.back();
    rest.pop_back();
    for (std::size_t i = 0; i < next.count; ++i) next.to[i] = copied(look(next.from[i]), arena, rest);
  }
  return result;
}

Value copy(const Value& value, Arena& arena) {
  return copy(value, arena, [](const Value& v) { return v; });
}

Value make_context(std::span<const std::string_view> keys, std::span<const Value> values, Arena& arena) {
  const auto size = static_cast<std::uint32_t>(keys.size());
  return Value::of(static_cast<const Context*>(arena.make<Context>(size, keys.data(), values.data())));
}

}  // namespace engine
