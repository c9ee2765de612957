// Unary tests: table cells, allowed values, and what stands after `in`.
// Source: DMN 1.5, 7.3.11 and table 55; docs/feel.md section 8.

#include "evaluate/convert.h"

namespace engine {

namespace {

struct AnyTest : Test {
  Logic check(Frame&, const Value&) const override { return Logic::yes; }
  bool is_any() const override { return true; }
  std::optional<Logic> by_constants(const Value&) const override { return Logic::yes; }
};

// Any two of a kind have an order.
bool is_plainly_ordered(const Value& value) { return value.is(Kind::number) || value.is(Kind::date); }

bool holds(Operation operation, std::partial_ordering ordering) {
  switch (operation) {
    case Operation::equal: return ordering == 0;
    case Operation::not_equal: return ordering != 0;
    case Operation::less: return ordering < 0;
    case Operation::less_or_equal: return ordering <= 0;
    case Operation::greater: return ordering > 0;
    default: return ordering >= 0;
  }
}

// `>= 10`
struct CompareTest : Test {
  Logic check(Frame& frame, const Value& tested) const override {
    const Value b = constant ? *constant : bound->run(frame);
    if (tested.is_plain_integer() && b.is_plain_integer()) {
      const std::int64_t x = tested.plain_integer();
      const std::int64_t y = b.plain_integer();
      return logic(holds(operation, x <=> y));
    }
    return compare(*frame.state, *bound, operation, tested, b);
  }
  std::optional<Logic> by_constants(const Value& tested) const override {
    if (!constant || tested.kind() != constant->kind() || !is_plainly_ordered(tested)) return std::nullopt;
    return logic(holds(operation, order(tested, *constant)));
  }
  void add_constants(std::vector<Value>& all) const override {
    if (constant) all.push_back(*constant);
  }
  Operation operation = Operation::none;
  const Code* bound = nullptr;
  const Value* constant = nullptr;
};

// Whether the value `wanted` of a test matches: it is equal, a range around, or a list that holds it.
Logic matches(State& state, const Code& at, const Value& tested, const Value& wanted) {
  if (wanted.is(Kind::range)) {
    const Logic inside = contains(wanted.range(), tested);
    if (inside != Logic::unknown) return inside;
    if (tested.is(Kind::range) && equal(state, tested, wanted) == Logic::yes) return Logic::yes;
    state.fault(at, "type_clash", "a " + std::string(type_name(tested.kind())) + " cannot be placed in the range `" +
                                      literal_of(wanted) + "`");
    return inside;
  }
  if (wanted.is(Kind::list)) {
    if (tested.is(Kind::list) && equal(state, tested, wanted) == Logic::yes) return Logic::yes;
    Logic result = Logic::no;
    for (const Value& item : wanted.list()) {
      const bool range = item.is(Kind::range);
      const Logic one = range ? contains(item.range(), tested) : equal(state, tested, item);
      if (one == Logic::yes) return Logic::yes;
      if (one == Logic::unknown && range) result = Logic::unknown;
    }
    return result;
  }
  return compare(state, at, Operation::equal, tested, wanted);
}

// An expression that does not use `?`.
struct ValueTest : Test {
  Logic check(Frame& frame, const Value& tested) const override {
    return matches(*frame.state, *value, tested, constant ? *constant : value->run(frame));
  }
  std::optional<Logic> by_constants(const Value& tested) const override {
    if (!constant) return std::nullopt;
    if (constant->is(Kind::range)) {
      const Logic inside = contains(constant->range(), tested);
      return inside == Logic::unknown ? std::nullopt : std::optional(inside);
    }
    if (tested.kind() != constant->kind()) return std::nullopt;
    if (is_plainly_ordered(tested)) return logic(order(tested, *constant) == 0);
    if (tested.is(Kind::boolean)) return logic(tested.boolean() == constant->boolean());
    return std::nullopt;
  }
  void add_constants(std::vector<Value>& all) const override {
    if (constant && constant->is(Kind::range)) {
      if (!constant->range().start.is_null()) all.push_back(constant->range().start);
      if (!constant->range().end.is_null()) all.push_back(constant->range().end);
    } else if (constant) {
      all.push_back(*constant);
    }
  }
  const Code* value = nullptr;
  const Value* constant = nullptr;
};

// A string constant: nearly all cells of our rulesets.
struct StringTest : Test {
  Logic check(Frame& frame, const Value& tested) const override {
    if (tested.is(Kind::string)) return logic(same_text(tested.string(), wanted.string()));
    return compare(*frame.state, *value, Operation::equal, tested, wanted);
  }
  std::optional<Logic> by_constants(const Value& tested) const override {
    return tested.is(Kind::string) ? std::optional(logic(tested.string() == wanted.string())) : std::nullopt;
  }
  void add_constants(std::vector<Value>& all) const override { all.push_back(wanted); }
  const Code* value = nullptr;
  Value wanted;
};

// An expression that uses `?`.
struct ConditionTest : Test {
  Logic check(Frame& frame, const Value&) const override {
    const Value answer = condition->run(frame);
    if (answer.is(Kind::boolean)) return logic(answer.boolean());
    if (answer.is_null()) return Logic::unknown;
    frame.state->fault(*condition, "bad_condition",
                       "a test that uses `?` must be a boolean, not a " + std::string(type_name(answer.kind())));
    return Logic::unknown;
  }
  const Code* condition = nullptr;
};

struct AnyOf : Test {
  Logic check(Frame& frame, const Value& tested) const override {
    Logic result = Logic::no;
    for (const Test* test : tests) {
      const Logic one = test->check(frame, tested);
      if (one == Logic::yes) return one;
      if (one == Logic::unknown) result = one;
    }
    return result;
  }
  std::optional<Logic> by_constants(const Value& tested) const override {
    Logic result = Logic::no;
    for (const Test* test : tests) {
      const auto one = test->by_constants(tested);
      if (!one) return std::nullopt;
      if (*one == Logic::yes) result = Logic::yes;
    }
    return result;
  }
  void add_constants(std::vector<Value>& all) const override {
    for (const Test* test : tests) test->add_constants(all);
  }
  std::vector<const Test*> tests;
};

// Several string constants: allowed values and lists of terms.
struct OneOfStrings : Test {
  Logic check(Frame& frame, const Value& tested) const override {
    if (!tested.is(Kind::string)) return general->check(frame, tested);
    for (const std::string_view word : words) {
      if (same_text(word, tested.string())) return Logic::yes;
    }
    return Logic::no;
  }
  std::optional<Logic> by_constants(const Value& tested) const override { return general->by_constants(tested); }
  void add_constants(std::vector<Value>& all) const override { general->add_constants(all); }
  std::vector<std::string_view> words;
  const Test* general = nullptr;
};

struct NotTest : Test {
  Logic check(Frame& frame, const Value& tested) const override { return negate(inner->check(frame, tested)); }
  std::optional<Logic> by_constants(const Value& tested) const override {
    const auto inside = inner->by_constants(tested);
    return inside ? std::optional(negate(*inside)) : std::nullopt;
  }
  void add_constants(std::vector<Value>& all) const override { inner->add_constants(all); }
  const Test* inner = nullptr;
};

const Test* compile_value_test(const Node& node, Compiler& compiler) {
  const Code* code = compiler.compile(*node.children[0]);
  if (node.flag) {
    auto* test = compiler.make_test<ConditionTest>();
    test->condition = code;
    return test;
  }
  const Value* constant = code->constant();
  if (constant && constant->is(Kind::string)) {
    auto* test = compiler.make_test<StringTest>();
    test->value = code;
    test->wanted = *constant;
    return test;
  }
  auto* test = compiler.make_test<ValueTest>();
  test->value = code;
  test->constant = constant;
  return test;
}

const Test* compile_list_of_tests(const Node& node, Compiler& compiler) {
  if (node.children.size() == 1) return compile_tests(*node.children[0], compiler);
  auto* all = compiler.make_test<AnyOf>();
  std::vector<std::string_view> words;
  for (const Tree& child : node.children) {
    all->tests.push_back(compile_tests(*child, compiler));
    if (const auto* word = dynamic_cast<const StringTest*>(all->tests.back())) words.push_back(word->wanted.string());
  }
  if (words.empty() || words.size() < node.children.size()) return all;
  auto* one_of = compiler.make_test<OneOfStrings>();
  one_of->words = std::move(words);
  one_of->general = all;
  return one_of;
}

}  // namespace

const Test* compile_tests(const Node& node, Compiler& compiler) {
  const Compiler::InText text(compiler, node);
  switch (node.kind) {
    case Node::Kind::compare_test: {
      auto* test = compiler.make_test<CompareTest>();
      test->operation = node.operation;
      test->bound = compiler.compile(*node.children[0]);
      test->constant = test->bound->constant();
      return test;
    }
    case Node::Kind::value_test: return compile_value_test(node, compiler);
    case Node::Kind::test_list: return compile_list_of_tests(node, compiler);
    case Node::Kind::not_test: {
      auto* test = compiler.make_test<NotTest>();
      test->inner = compile_tests(*node.children[0], compiler);
      return test;
    }
    default: return compiler.make_test<AnyTest>();
  }
}

}  // namespace engine
