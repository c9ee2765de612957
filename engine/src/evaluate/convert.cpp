#include "evaluate/convert.h"

#include "evaluate/function.h"

namespace engine {

namespace {

bool satisfies(State& state, const Value& value, const Constraint& constraint) {
  Value slots[8];
  std::span<Value> room = constraint.slots <= 8 ? std::span<Value>(slots)
                                                : std::span<Value>(state.arena.allocate<Value>(constraint.slots),
                                                                   constraint.slots);
  std::fill(room.begin(), room.end(), Value());
  Frame frame{&state, nullptr, room.data()};
  frame.slots[constraint.tested_slot] = value;
  ++state.quiet;
  const Logic result = constraint.test->check(frame, value);
  --state.quiet;
  return result == Logic::yes;
}

bool function_fits(const Function& function, const Type& type) {
  if (type.parameters.empty() && !type.result) return true;
  const FunctionShape& shape = *function.shape;
  if (shape.names.size() != type.parameters.size()) return false;
  for (std::size_t i = 0; i < shape.names.size(); ++i) {
    const Type* declared = shape.types[i] ? shape.types[i] : any_type();
    if (!fits(*type.parameters[i], *declared)) return false;
  }
  return !type.result || !shape.result || fits(*shape.result, *type.result);
}

// Whether constraints are asked as well: not by `instance of`.
enum class Depth { shape, constraints };

bool value_fits(State& state, const Value& value, const Type& type, Depth depth);

bool kind_fits(State& state, const Value& value, const Type& type, Depth depth) {
  if (type.kind == Type::Kind::any) return true;
  if (type_kind_of(value.kind()) != type.kind) return false;
  switch (type.kind) {
    case Type::Kind::list:
      if (!type.element) return true;
      for (const Value& item : value.list()) {
        if (!value_fits(state, item, *type.element, depth)) return false;
      }
      return true;
    case Type::Kind::context: {
      const Context& context = value.context();
      std::uint32_t expected = 0;
      for (const Type::Field& field : type.fields) {
        const std::uint32_t at = context.position(field.name, expected++);
        if (at == context.size) return false;
        if (!context.values[at].is(Kind::open_fact) && !value_fits(state, context.values[at], *field.type, depth)) return false;
      }
      return true;
    }
    case Type::Kind::range: {
      if (!type.element) return true;
      const Range& range = value.range();
      return value_fits(state, range.start, *type.element, depth) &&
             value_fits(state, range.end, *type.element, depth);
    }
    case Type::Kind::function: return function_fits(value.function(), type);
    default: return true;
  }
}

bool value_fits(State& state, const Value& value, const Type& type, Depth depth) {
  if (value.is_null()) return true;
  if (!kind_fits(state, value, type, depth)) return false;
  if (depth == Depth::shape) return true;
  for (const Constraint* constraint : type.constraints) {
    if (!satisfies(state, value, *constraint)) return false;
  }
  return true;
}

}  // namespace

bool conforms(State& state, const Value& value, const Type& type) {
  return value_fits(state, value, type, Depth::constraints);
}

Value convert(State& state, const Code& at, const Value& value, const Type& type) {
  if (type.kind == Type::Kind::any && type.constraints.empty()) return value;
  if (value.is_null() || value.is(Kind::open_fact) || conforms(state, value, type)) return value;
  if (type.kind == Type::Kind::list && !value.is(Kind::list) && (!type.element || conforms(state, value, *type.element))) {
    Value* item = state.arena.allocate<Value>(1);
    *item = value;
    return convert(state, at, Value::list({item, 1}), type);
  }
  if (value.is(Kind::list) && value.list().size() == 1 && conforms(state, value.list()[0], type)) {
    return value.list()[0];
  }
  if (type.kind == Type::Kind::date_time && value.is(Kind::date)) {
    Time midnight;
    midnight.zone = {Zone::Kind::offset, 0, {}};
    return Value::of(DateTime{value.date(), midnight}, state.arena);
  }
  std::string message = "a " + std::string(type_name(value.kind())) + " is no `" + text_of(type) + "`";
  if (kind_fits(state, value, type, Depth::constraints)) {
    message = "`" + literal_of(value) + "` is not among the allowed values of `" + text_of(type) + "`";
    for (const Constraint* constraint : type.constraints) message += ": " + constraint->text;
  }
  return state.fault(at, "type_clash", std::move(message));
}

bool is_instance(State& state, const Value& value, const Type& type) {
  return !value.is_null() && value_fits(state, value, type, Depth::shape);
}

}  // namespace engine
