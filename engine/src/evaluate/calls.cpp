// Function values and calls.

#include <algorithm>
#include <cstddef>
#include <memory>

#include "builtins/index.h"
#include "evaluate/convert.h"
#include "evaluate/function.h"
#include "evaluate/run_key.h"

namespace engine {

namespace {

constexpr std::size_t small_frame = 16;

// Memory for a few values on the stack, which are not made before they are needed; for more, in the arena.
template <std::size_t few>
class Room {
 public:
  Value* for_values(State& state, std::size_t count) {
    return count <= few ? reinterpret_cast<Value*>(bytes_) : state.arena.allocate<Value>(count);
  }

 private:
  alignas(Value) std::byte bytes_[few * sizeof(Value)];
};

struct FunctionLiteral : Code {
  Value run(Frame& frame) const override {
    // A copy of the variables as they are now: a loop outside may go on after the function was made.
    State& state = *frame.state;
    Value* slots = state.arena.allocate<Value>(outer_slots);
    std::uninitialized_copy_n(frame.slots, outer_slots, slots);
    Frame* captured = state.arena.make<Frame>(&state, frame.outer, slots);
    return Value::of(static_cast<const Function*>(state.arena.make<Function>(&shape, captured)));
  }
  FunctionShape shape;
  std::uint32_t outer_slots = 0;
};

const Signature* matching_signature(const Builtin& builtin, std::size_t count) {
  for (const Signature& s : builtin.signatures) {
    if (count >= s.required && (count <= s.names.size() || s.variadic)) return &s;
  }
  return nullptr;
}

Value run_builtin(State& state, const Code& at, const Builtin& builtin, std::span<const Value> arguments,
                  const Signature* named) {
  Room<6> room;
  Value* own = room.for_values(state, arguments.size());
  std::uninitialized_copy(arguments.begin(), arguments.end(), own);
  return builtin.run({state, at, {own, arguments.size()}, builtin.name, named});
}

Value call_builtin(State& state, const Code& at, const Builtin& builtin, std::span<const Value> arguments) {
  if (!matching_signature(builtin, arguments.size())) {
    return state.fault(at, "wrong_arguments", "`" + std::string(builtin.name) + "` does not take " +
                                                  std::to_string(arguments.size()) + " arguments");
  }
  return run_builtin(state, at, builtin, arguments, nullptr);
}

Value call_written(State& state, const Code& at, const Function& function, std::span<const Value> arguments,
                   std::uint32_t conforming) {
  const FunctionShape& shape = *function.shape;
  if (arguments.size() != shape.names.size()) {
    return state.fault(at, "wrong_arguments", "the function takes " + std::to_string(shape.names.size()) +
                                                  (shape.names.size() == 1 ? " argument, not " : " arguments, not ") + std::to_string(arguments.size()));
  }
  if (shape.external) return state.fault(at, "external_function", "external functions are not supported");
  const Nesting nesting(state, at);
  if (!nesting || !state.step(at)) return {};
  Room<small_frame> room;
  Value* slots = room.for_values(state, shape.slots);
  std::uninitialized_fill_n(slots, shape.slots, Value());
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    Value argument = arguments[i];
    const bool conforms = i < 32 && (conforming >> i & 1) != 0;
    if (shape.types[i] && !conforms) {
      argument = convert(state, at, argument, *shape.types[i]);
      if (argument.is_null() && !arguments[i].is_null()) return {};  // convert() has said why
    }
    slots[shape.parameter_slots[i]] = argument;
  }
  Frame frame{&state, function.captured, slots};
  const Value result = shape.body->run(frame);
  return shape.result && !shape.result_conforms ? convert(state, at, result, *shape.result) : result;
}

struct Call : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    Room<6> room;
    Value* values = room.for_values(state, arguments.size());
    if (builtin) {
      for (std::size_t i = 0; i < arguments.size(); ++i) values[i] = arguments[i]->run(frame);
      return builtin->run({state, *this, {values, arguments.size()}, builtin->name, nullptr});
    }
    const Value function = callee->run(frame);
    // What is written in FEEL may only test an open fact; what is built in needs its value.
    const bool written = function.is(Kind::function) && !function.function().shape->builtin;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
      values[i] = written ? arguments[i]->raw(frame) : arguments[i]->run(frame);
    }
    if (!function.is(Kind::function)) {
      return state.fault(*this, "not_a_function",
                         "a " + std::string(type_name(function.kind())) + " cannot be called");
    }
    const auto run_it = [&] {
      return call(state, *this, function.function(), {values, arguments.size()}, conforming);
    };
    if (!written || !state.searching) return run_it();
    const Function& called = function.function();
    const auto key = called.captured ? std::nullopt : key_of(state, called.shape, {values, arguments.size()});
    return state.together(run_it, this, key ? &*key : nullptr);
  }
  const Code* callee = nullptr;
  const Builtin* builtin = nullptr;  ///< The callee, when it is a built-in function that takes so many arguments.
  Operands arguments;
  std::uint32_t conforming = 0;
};

// The arguments whose static type promises what the parameter of a function of the model declares.
std::uint32_t conforming_arguments(const Node& call) {
  const Node& callee = *call.children[0];
  if (callee.binding.kind != Binding::Kind::element || callee.type->kind != Type::Kind::function) return 0;
  std::uint32_t bits = 0;
  const std::size_t count = std::min(callee.type->parameters.size(), call.children.size() - 1);
  for (std::size_t i = 0; i < count && i < 32; ++i) {
    if (surely_conforms(*call.children[i + 1]->type, *callee.type->parameters[i])) bits |= 1u << i;
  }
  return bits;
}

// The arguments of a call by name, in the order of the parameters; no value when a name does not fit.
std::optional<std::vector<Value>> in_order(const std::vector<std::string>& given, std::span<const Value> values,
                                           std::span<const std::string_view> names, std::size_t required) {
  std::vector<Value> ordered(names.size());
  std::vector<bool> present(names.size(), false);
  for (std::size_t i = 0; i < given.size(); ++i) {
    const auto at = std::find(names.begin(), names.end(), given[i]);
    if (at == names.end()) return std::nullopt;
    const auto index = static_cast<std::size_t>(at - names.begin());
    if (present[index]) return std::nullopt;
    present[index] = true;
    ordered[index] = values[i];
  }
  for (std::size_t i = 0; i < required; ++i) {
    if (!present[i]) return std::nullopt;
  }
  // Optional parameters at the end that were not given are left off.
  while (!ordered.empty() && ordered.size() > required && !present[ordered.size() - 1]) ordered.pop_back();
  return ordered;
}

struct NamedCall : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value callee_value = callee->run(frame);
    std::vector<Value> values;
    for (const Code* argument : arguments) values.push_back(argument->run(frame));
    if (!callee_value.is(Kind::function)) {
      return state.fault(*this, "not_a_function",
                         "a " + std::string(type_name(callee_value.kind())) + " cannot be called");
    }
    const Function& function = callee_value.function();
    if (const Builtin* builtin = function.shape->builtin) {
      for (const Signature& s : builtin->signatures) {
        if (const auto ordered = in_order(names, values, s.names, s.required)) {
          return run_builtin(state, *this, *builtin, *ordered, &s);
        }
      }
    } else {
      const std::vector<std::string_view> parameters(function.shape->names.begin(), function.shape->names.end());
      const std::size_t required = missing_is_null ? 0 : parameters.size();
      if (auto ordered = in_order(names, values, parameters, required)) {
        ordered->resize(parameters.size());
        return call(state, *this, function, *ordered);
      }
    }
    return state.fault(*this, "wrong_arguments",
                       "`" + function.shape->name + "` has no parameters with these names");
  }
  const Code* callee = nullptr;
  std::vector<std::string> names;
  Operands arguments;
  bool missing_is_null = false;  ///< A boxed invocation may leave out bindings.
};

}  // namespace

Value call(State& state, const Code& at, const Function& function, std::span<const Value> arguments,
           std::uint32_t conforming) {
  if (function.shape->builtin) return call_builtin(state, at, *function.shape->builtin, arguments);
  return call_written(state, at, function, arguments, conforming);
}

const Code* compile_function(const Node& node, Compiler& compiler) {
  FunctionLiteral* code = compiler.make<FunctionLiteral>(node);
  code->shape.names = node.names;
  code->shape.types = node.types;
  code->shape.parameter_slots = node.slots;
  code->shape.slots = node.frame_slots;
  code->shape.external = node.flag;
  code->shape.body = compiler.compile(*node.children[0]);
  code->outer_slots = node.binding.index;
  return code;
}

const Code* compile_call(const Node& node, Compiler& compiler) {
  Operands operands = compiler.compile_all(node.children);
  if (node.kind == Node::Kind::call) {
    Call* code = compiler.make<Call>(node);
    code->callee = operands[0];
    code->arguments.assign(operands.begin() + 1, operands.end());
    code->conforming = conforming_arguments(node);
    if (const Value* known = code->callee->constant(); known && known->is(Kind::function)) {
      const Builtin* builtin = known->function().shape->builtin;
      if (builtin && matching_signature(*builtin, code->arguments.size())) code->builtin = builtin;
    }
    return code;
  }
  NamedCall* code = compiler.make<NamedCall>(node);
  code->callee = operands[0];
  code->arguments.assign(operands.begin() + 1, operands.end());
  code->names = node.names;
  code->missing_is_null = node.flag;
  return code;
}

}  // namespace engine
