// What holds for all built-ins alike.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>

#include "builtins/index.h"
#include "engine/value.h"
#include "support/feel.h"

namespace {

using engine::Builtin;
using engine::Kind;
using engine::Value;

struct Nowhere : engine::Code {
  Value run(engine::Frame&) const override { return {}; }
};

/// Values of every type, the awkward ones first.
std::vector<Value> samples(engine::Arena& arena) {
  std::vector<Value> values;
  for (const char* text : {"null",
                           "0",
                           "-2.5",
                           "1e30",
                           R"("")",
                           R"("a")",
                           R"(["a", null])",
                           "[]",
                           "[[1], 2]",
                           "{}",
                           "{key: \"a\", value: 1}",
                           "true",
                           R"(date("2024-02-29"))",
                           R"(time("10:00:00Z"))",
                           R"(date and time("2024-02-29T10:00:00"))",
                           R"(duration("-P1M"))",
                           R"(duration("-PT1S"))",
                           "[1..3)",
                           "(< 3)",
                           "contains"}) {
    values.push_back(engine::evaluate(text, {}, arena).operator*().value);
  }
  return values;
}

/// Null without a note is right for these: a null argument or item is what they are about.
bool may_be_silently_null(const Builtin& builtin) {
  constexpr std::array<std::string_view, 5> names = {"string", "not", "all", "any", "get value"};
  return std::find(names.begin(), names.end(), builtin.name) != names.end();
}

/// Runs the built-in with every choice of so many samples.
void try_all(const Builtin& builtin, std::size_t count, const std::vector<Value>& values) {
  const Nowhere at;
  engine::Evaluation::State state{engine::Budget{}};
  std::vector<std::size_t> digits(count, 0);
  std::vector<Value> arguments(count);
  for (;;) {
    for (std::size_t i = 0; i < count; ++i) arguments[i] = values[digits[i]];
    const Value result = builtin.run({state, at, arguments, builtin.name, nullptr});
    if (result.is_null() && state.diagnostics.empty() && !may_be_silently_null(builtin)) {
      std::string text = std::string(builtin.name) + "(";
      for (const Value& argument : arguments) text += literal_of(argument) + ", ";
      FAIL(text << ") is null, and nothing says why");
    }
    state.diagnostics.clear();
    state.arena.clear();
    std::size_t i = 0;
    while (i < count && ++digits[i] == values.size()) digits[i++] = 0;
    if (i == count) return;
  }
}

}  // namespace

TEST_CASE("a built-in takes whatever it is given, and says why there is no result", "[builtins]") {
  engine::Arena arena;
  const std::vector<Value> values = samples(arena);
  for (const Builtin& builtin : engine::builtins()) {
    for (const engine::Signature& signature : builtin.signatures) {
      const std::size_t most = std::min<std::size_t>(signature.names.size(), 3);
      for (std::size_t count = std::max<std::size_t>(signature.required, 1); count <= most; ++count) {
        try_all(builtin, count, values);
      }
    }
  }
}

TEST_CASE("every built-in has a name of its own and is found by it", "[builtins]") {
  for (const Builtin& builtin : engine::builtins()) {
    INFO(builtin.name);
    const auto same_name = [&](const Builtin& other) { return other.name == builtin.name; };
    CHECK(std::count_if(engine::builtins().begin(), engine::builtins().end(), same_name) == 1);
    CHECK(testing::value_of(builtin.name).starts_with("function("));
  }
}

TEST_CASE("an unknown name of an argument is refused by every built-in", "[builtins]") {
  for (const Builtin& builtin : engine::builtins()) {
    const std::string text = std::string(builtin.name) + "(no such parameter: 1)";
    INFO(text);
    CHECK(testing::notes_of(text) == "wrong_arguments");
  }
}

TEST_CASE("a result longer than the budget is null, and the evaluation is over", "[builtins]") {
  const Nowhere at;
  engine::Budget budget;
  budget.list_length = 2;
  budget.string_length = 3;
  engine::Evaluation::State state(budget);
  const auto run = [&](std::string_view name, std::vector<Value> arguments) {
    const auto found = std::find_if(engine::builtins().begin(), engine::builtins().end(),
                                    [&](const Builtin& builtin) { return builtin.name == name; });
    state.exhausted = false;
    state.diagnostics.clear();
    return found->run({state, at, arguments, name, nullptr});
  };
  const std::vector<Value> two = {Value::number(1), Value::number(2)};
  CHECK_FALSE(run("concatenate", {Value::list(two)}).is_null());
  CHECK(run("concatenate", {Value::list(two), Value::list(two)}).is_null());
  CHECK(state.exhausted);
  CHECK(state.diagnostics.front().code == "budget_exhausted");
  CHECK(run("replace", {Value::string("abc"), Value::string("b"), Value::string("bb")}).is_null());
  CHECK(state.exhausted);
}
