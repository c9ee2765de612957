// Arithmetic, comparison and logic as code.

#include <array>

#include "evaluate/convert.h"
#include "evaluate/run_key.h"

namespace engine {

namespace {

struct Arithmetic : Code {
  Value run(Frame& frame) const override {
    const Value a = left->run(frame);
    const Value b = right->run(frame);
    return arithmetic(*frame.state, *this, operation, a, b);
  }
  Operation operation = Operation::none;
  const Code* left = nullptr;
  const Code* right = nullptr;
};

struct Negation : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value value = operand->run(frame);
    switch (value.kind()) {
      case Kind::number:
        state.calculates_with(value);
        return Value::number(value.number().negated(), state.arena);
      case Kind::years_and_months:
        if (const auto months = negated(value.months())) return Value::of(*months);
        break;
      case Kind::days_and_time:
        if (const auto duration = negated(value.duration())) return Value::of(*duration);
        break;
      default: break;
    }
    return state.fault(*this, "no_arithmetic", "a " + std::string(type_name(value.kind())) + " cannot be negated");
  }
  const Code* operand = nullptr;
};

struct Comparison : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value a = left->raw(frame);
    const Value b = right->raw(frame);
    const auto with_left = [&](const Value& settled) {
      if (!b.is(Kind::open_fact)) return compare(state, *this, operation, settled, b);
      return state.test(b, [&](const Value& other) { return compare(state, *this, operation, settled, other); });
    };
    if (a.is(Kind::open_fact)) {
      // Only one side may stay open: a test is of one fact alone.
      return value_of(b.is(Kind::open_fact) ? with_left(state.resolve(a)) : state.test(a, with_left));
    }
    return value_of(with_left(a));
  }
  Operation operation = Operation::none;
  const Code* left = nullptr;
  const Code* right = nullptr;
};

// `x >= 10`, `x = "rectum"`: nearly all comparisons of our rulesets. Falls back to the general rule.
struct ComparisonWithConstant : Code {
  Value run(Frame& frame) const override {
    const Value a = left->raw(frame);
    if (a.is(Kind::open_fact)) {
      State& state = *frame.state;
      return value_of(state.test(a, [&](const Value& taken) { return compare(state, *this, operation, taken, bound); }));
    }
    if (a.is_plain_integer() && bound.is_plain_integer()) {
      const std::int64_t x = a.plain_integer();
      const std::int64_t y = bound.plain_integer();
      switch (operation) {
        case Operation::equal: return Value::of(x == y);
        case Operation::not_equal: return Value::of(x != y);
        case Operation::less: return Value::of(x < y);
        case Operation::less_or_equal: return Value::of(x <= y);
        case Operation::greater: return Value::of(x > y);
        default: return Value::of(x >= y);
      }
    }
    if (a.is(Kind::string) && bound.is(Kind::string)) {
      if (operation == Operation::equal) return Value::of(a.string() == bound.string());
      if (operation == Operation::not_equal) return Value::of(a.string() != bound.string());
    }
    return value_of(compare(*frame.state, *this, operation, a, bound));
  }
  Operation operation = Operation::none;
  const Code* left = nullptr;
  Value bound;
};

struct Between : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value v = tested->run(frame);
    const Logic above = compare(state, *this, Operation::greater_or_equal, v, lower->run(frame));
    const Logic below = compare(state, *this, Operation::less_or_equal, v, upper->run(frame));
    if (above == Logic::no || below == Logic::no) return Value::of(false);
    if (above == Logic::unknown || below == Logic::unknown) return {};
    return Value::of(true);
  }
  const Code* tested = nullptr;
  const Code* lower = nullptr;
  const Code* upper = nullptr;
};

struct In : Code {
  Value run(Frame& frame) const override {
    const Value value = tested->raw(frame);
    if (!value.is(Kind::open_fact)) return value_of(tests->check(frame, value));
    return value_of(frame.state->test(value, [&](const Value& taken) { return tests->check(frame, taken); }));
  }
  const Code* tested = nullptr;
  const Test* tests = nullptr;
};

template <bool deciding>  // false decides `and`, true decides `or`
struct Junction : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    if (!state.searching) return decide(frame);
    const auto key = slots ? key_in(frame) : std::nullopt;
    return state.together([&] { return decide(frame); }, this, key ? &*key : nullptr);
  }
  std::optional<FactSource::Key> key_in(Frame& frame) const {
    std::array<Value, 4> values;
    if (slots->size() > values.size()) return std::nullopt;
    for (std::size_t i = 0; i < slots->size(); ++i) values[i] = frame.slots[(*slots)[i]];
    return key_of(*frame.state, this, {values.data(), slots->size()});
  }
  Value decide(Frame& frame) const {
    const Value a = left->run(frame);
    if (decides(a)) return Value::of(deciding);
    const Value b = right->run(frame);
    if (decides(b)) return Value::of(deciding);
    if (a.is(Kind::boolean) && b.is(Kind::boolean)) return Value::of(!deciding);
    return {};
  }
  static bool decides(const Value& v) { return deciding ? v.is_true() : v.is_false(); }
  const Code* left = nullptr;
  const Code* right = nullptr;
  std::optional<std::vector<std::uint32_t>> slots;  ///< All that it reads but elements of the model; none: not known.
};

struct Conditional : Code {
  Value run(Frame& frame) const override {
    const Value chosen = condition->run(frame);
    if (chosen.is_true()) return yes->run(frame);
    if (!chosen.is(Kind::boolean) && !chosen.is_null()) {
      return frame.state->fault(*this, "bad_condition",
                                "a condition must be a boolean, not a " + std::string(type_name(chosen.kind())));
    }
    return no->run(frame);
  }
  const Code* condition = nullptr;
  const Code* yes = nullptr;
  const Code* no = nullptr;
};

struct InstanceOf : Code {
  Value run(Frame& frame) const override {
    return Value::of(is_instance(*frame.state, operand->run(frame), *type));
  }
  const Code* operand = nullptr;
  const Type* type = nullptr;
};

struct Convert : Code {
  Value run(Frame& frame) const override { return convert(*frame.state, *this, operand->run(frame), *type); }
  const Code* operand = nullptr;
  const Type* type = nullptr;
};

}  // namespace

const Code* compile_arithmetic(const Node& node, Compiler& compiler) {
  Arithmetic* code = compiler.make<Arithmetic>(node);
  code->operation = node.operation;
  code->left = compiler.compile(*node.children[0]);
  code->right = compiler.compile(*node.children[1]);
  return code;
}

const Code* compile_negation(const Node& node, Compiler& compiler) {
  Negation* code = compiler.make<Negation>(node);
  code->operand = compiler.compile(*node.children[0]);
  return code;
}

const Code* compile_comparison(const Node& node, Compiler& compiler) {
  const Code* left = compiler.compile(*node.children[0]);
  const Code* right = compiler.compile(*node.children[1]);
  if (const Value* bound = right->constant()) {
    ComparisonWithConstant* code = compiler.make<ComparisonWithConstant>(node);
    code->operation = node.operation;
    code->left = left;
    code->bound = *bound;
    return code;
  }
  Comparison* code = compiler.make<Comparison>(node);
  code->operation = node.operation;
  code->left = left;
  code->right = right;
  return code;
}

const Code* compile_between(const Node& node, Compiler& compiler) {
  Between* code = compiler.make<Between>(node);
  code->tested = compiler.compile(*node.children[0]);
  code->lower = compiler.compile(*node.children[1]);
  code->upper = compiler.compile(*node.children[2]);
  return code;
}

const Code* compile_in(const Node& node, Compiler& compiler) {
  In* code = compiler.make<In>(node);
  code->tested = compiler.compile(*node.children[0]);
  code->tests = compile_tests(*node.children[1], compiler);
  return code;
}

const Code* compile_junction(const Node& node, Compiler& compiler) {
  const Code* left = compiler.compile(*node.children[0]);
  const Code* right = compiler.compile(*node.children[1]);
  const auto make = [&]<bool deciding>(Junction<deciding>* code) -> const Code* {
    code->left = left;
    code->right = right;
    code->slots = slots_read(node);
    return code;
  };
  if (node.kind == Node::Kind::conjunction) return make(compiler.make<Junction<false>>(node));
  return make(compiler.make<Junction<true>>(node));
}

const Code* compile_conditional(const Node& node, Compiler& compiler) {
  Conditional* code = compiler.make<Conditional>(node);
  code->condition = compiler.compile(*node.children[0]);
  code->yes = compiler.compile(*node.children[1]);
  code->no = compiler.compile(*node.children[2]);
  return code;
}

const Code* compile_instance_of(const Node& node, Compiler& compiler) {
  InstanceOf* code = compiler.make<InstanceOf>(node);
  code->operand = compiler.compile(*node.children[0]);
  code->type = node.types[0];
  return code;
}

const Code* compile_convert(const Node& node, Compiler& compiler) {
  const Code* operand = compiler.compile(*node.children[0]);
  if (surely_conforms(*node.children[0]->type, *node.types[0])) return operand;
  Convert* code = compiler.make<Convert>(node);
  code->operand = operand;
  code->type = node.types[0];
  return code;
}

}  // namespace engine
