// The engine against the naive evaluator, and the printer against the parser, on random expressions.
// The naive evaluator is the outside check; where the two differ, docs/feel.md and the standard say who is
// right.

#include "engine/differential/naive_evaluator.h"

#include <catch2/catch.hpp>

#include "builtins/index.h"
#include "engine/differential/expression_generator.h"
#include "engine/model.h"
#include "support/feel.h"
#include "syntax/parser.h"

using namespace engine;
using testing::ExpressionGenerator;
using testing::NaiveAnswer;
using testing::Plain;

namespace {

constexpr int expressions = 50'000;
constexpr int cells = 10'000;
constexpr int most_shown = 20;  ///< One fault shows itself many times.

Value value_of(const Plain& plain, Arena& arena) {
  switch (plain.kind) {
    case Kind::boolean:
      return Value::of(plain.truth);
    case Kind::number:
      return Value::number(plain.number, arena);
    case Kind::string:
      return Value::string(plain.text, arena);
    case Kind::date:
      return Value::of(plain.date);
    case Kind::years_and_months:
      return Value::of(plain.months);
    case Kind::days_and_time:
      return Value::of(plain.duration);
    case Kind::list: {
      std::vector<Value> items;
      for (const Plain& item : plain.items) items.push_back(value_of(item, arena));
      return Value::list(arena.keep(std::span<const Value>(items)));
    }
    case Kind::context: {
      std::vector<std::string_view> keys;
      std::vector<Value> values;
      for (const auto& [key, entry] : plain.entries) {
        keys.push_back(arena.keep(key));
        values.push_back(value_of(entry, arena));
      }
      return Value::of(static_cast<const Context*>(arena.make<Context>(
          static_cast<std::uint32_t>(keys.size()), arena.keep(std::span<const std::string_view>(keys)).data(),
          arena.keep(std::span<const Value>(values)).data())));
    }
    default:
      return {};
  }
}

// The scope of the generator, as the engine and its parser want it.
struct Sheet {
  Sheet() {
    for (const testing::PlainNamed& named : ExpressionGenerator::scope()) {
      names.push_back({named.name, value_of(named.value, arena)});
    }
  }
  Arena arena;
  std::vector<Named> names;
};

bool has_error(const Answer& answer) {
  return std::any_of(answer.diagnostics.begin(), answer.diagnostics.end(), [](const Diagnostic& d) {
    return d.severity == Severity::error && d.code != "unknown_name";
  });
}

std::string text_of(const Plain& value, bool has_error) {
  return text_of(value) + (has_error ? ", with an error" : "");
}

/// Empty when the two agree.
std::string difference(const Result<Answer>& ours, const NaiveAnswer& naive) {
  if (!ours) return "engine: " + ours.errors().front().message;
  if (naive.value_is_open) return "";
  const bool expected_error = naive.error_is_open ? has_error(*ours) : naive.has_error;
  const std::string expected = text_of(naive.value, expected_error);
  const std::string found = text_of(testing::plain(ours->value), has_error(*ours));
  return expected == found ? "" : "naively: " + expected + "\nengine:  " + found;
}

// The tree that the text parses to, with the names of the generator's scope known by their types.
Result<Parsed> parsed(const std::string& text, bool is_tests, TypeStore& types) {
  Layout layout;
  Scope scope(&builtin_scope(), &layout);
  Type* lesion = types.make(Type::Kind::context);
  for (const char* key : {"size mm", "s", "n", "flat"}) lesion->fields.push_back({key, any_type()});
  for (const testing::PlainNamed& named : ExpressionGenerator::scope()) {
    scope.add_variable(named.name, named.name == "lesions" ? types.list_of(lesion) : any_type());
  }
  if (is_tests) scope.add_variable("?");
  const ParseContext context{&scope, &types, "generated"};
  return is_tests ? parse_unary_tests(text, context) : parse_expression(text, context);
}

}  // namespace

TEST_CASE("a printed expression that was made at random parses to the same tree",
          "[feel][syntax][differential]") {
  ExpressionGenerator generator(20260310);
  int failures = 0;
  for (int i = 0; i < expressions && failures < most_shown; ++i) {
    const Tree tree = generator.expression();
    const std::string text = print(*tree);
    TypeStore types;
    const Result<Parsed> again = parsed(text, false, types);
    if (!again || !same_tree(*tree, *again->tree)) {
      ++failures;
      FAIL_CHECK("expression " << i << ": " << text << "\nis read as "
                               << (again ? print(*again->tree) : again.errors().front().message));
    }
  }
}

TEST_CASE("an expression that was made at random has the value that the naive evaluator gives",
          "[feel][differential]") {
  const Sheet sheet;
  ExpressionGenerator generator(20260311);
  int failures = 0;
  for (int i = 0; i < expressions && failures < most_shown; ++i) {
    const Tree tree = generator.expression();
    const std::string text = print(*tree);
    Arena arena;
    const Result<Answer> ours = evaluate(text, sheet.names, arena);
    const std::string found = difference(ours, evaluate_naively(*tree, ExpressionGenerator::scope()));
    if (found.empty()) continue;
    ++failures;
    FAIL_CHECK("expression " << i << ": " << text << "\n" << found);
  }
}

TEST_CASE("a table cell that was made at random holds where the naive evaluator says so",
          "[feel][differential]") {
  const Sheet sheet;
  ExpressionGenerator generator(20260312);
  const auto& scope = ExpressionGenerator::scope();
  const std::pair<testing::Sort, const char*> tested_values[] = {{testing::Sort::number, "n"},
                                                                 {testing::Sort::text, "s"},
                                                                 {testing::Sort::truth, "nothing"},
                                                                 {testing::Sort::numbers, "ns"}};
  int failures = 0;
  for (int i = 0; i < cells && failures < most_shown; ++i) {
    const auto& [sort, name] = tested_values[static_cast<std::size_t>(i) % std::size(tested_values)];
    const auto at = std::find_if(scope.begin(), scope.end(),
                                 [&, wanted = name](const auto& named) { return named.name == wanted; });
    const Tree tree = generator.unary_tests(sort);
    const std::string text = print(*tree);
    TypeStore types;
    const Result<Parsed> again = parsed(text, true, types);
    if (!again || !same_tree(*tree, *again->tree)) {
      ++failures;
      FAIL_CHECK("cell " << i << ": " << text << "\nis read as "
                         << (again ? print(*again->tree) : again.errors().front().message));
      continue;
    }
    Arena arena;
    const Result<Answer> ours = evaluate_unary_tests(
        text, sheet.names[static_cast<std::size_t>(at - scope.begin())].value, sheet.names, arena);
    const std::string found = difference(ours, test_naively(*tree, at->value, scope));
    if (found.empty()) continue;
    ++failures;
    FAIL_CHECK("cell " << i << " of " << name << ": " << text << "\n" << found);
  }
}

// What the comparison above has found, each as small as it can be.
TEST_CASE("an expression has the value that the standard gives where the engine once differed",
          "[feel][differential]") {
  struct Row {
    const char* because;
    const char* expression;
    const char* value;
    const char* notes;
  };
  const auto row = GENERATE(values<Row>({
      {"a filter asks each item, and there is none", "[][@\"P1M\"]", "[]", ""},
      {"a fault in an index counts, whatever is known of the items",
       "(function(l) l[if count(null) > 0 then 1 else 2])([1, 2, 3])", "2", "bad_argument type_clash"},
      {"the items of one branch may have keys that those of the other have not",
       "(if false then [{n: 1}] else [{n: 2, flat: true}])[flat]", "[{n: 2, flat: true}]", ""},
  }));
  INFO(row.because << ": " << row.expression);
  CHECK(testing::value_of(row.expression) == row.value);
  CHECK(testing::notes_of(row.expression) == row.notes);
}

TEST_CASE("a printed cell is the same test", "[feel][syntax][differential]") {
  struct Row {
    const char* because;
    const char* cell;
  };
  const auto row = GENERATE(values<Row>({
      {"the value equals what the function `not` gives", "(not(true))"},
      {"the form of a cell that is not satisfied", "not(true)"},
      {"beside another test `not` is the function", "not(true), false"},
      {"every value", "-"},
      {"the function `not` of the value", "(not(?))"},
      {"an open range as a value", "((< 3))"},
      {"a comparison", "< 3"},
      {"a list of several", "1, [2..3], > 5, (4..5)"},
  }));
  TypeStore types;
  const Result<Parsed> first = parsed(row.cell, true, types);
  REQUIRE(first);
  const std::string printed = print(*first->tree);
  INFO(row.because << ": " << row.cell << " is printed as " << printed);
  const Result<Parsed> second = parsed(printed, true, types);
  REQUIRE(second);
  CHECK(same_tree(*first->tree, *second->tree));
}

TEST_CASE("a rare form is printed so that it is read as the same tree", "[feel][syntax][differential]") {
  const std::string text = GENERATE(
      as<std::string>(), "function(x: list<number>, y: context<k: string>) external {java: {class: \"a\"}}",
      "ns instance of list<list<number>>", "s instance of function<number, string> -> boolean",
      "n instance of range<date>", "-(-n)", "-n ** 2", "(-n) ** -2", "2 ** (3 ** 2)", "1.5.n",
      "@\"P1D\".days", "\"a\".n", "(1..2).start", "(< 3).end", "[1..3][2]", "(n in (1, 2)) = yes",
      "(n between 1 and 2) = yes", "n between (if yes then 1 else 2) and 3",
      "for x in (for y in ns return y) return x", "for x in n..m, y in x..3 return partial",
      "for x in ]n..m[ return x", "some x in ns, y in ns satisfies x = y",
      "if yes then (if is flat then 1 else 2) else 3", "(if yes then lesions else mixed)[n = 1].n",
      "lesions[size mm > n].s", "{\"\": 1, \"a b\": 2, \"if\": 3}", "[[], [[]], {}]", "(function() 1)()",
      "sort(list: ns, precedes: function(x, y) x < y)", "n in (n)", "n in ((n))", "n in ((< 3))",
      "n in (= 3)", "n in [1..2]", "n in (1..2)", "n in (n + 1) * 2", "n in ()",
      "(yes and is flat) or nothing", "yes and (is flat or nothing)", "not(yes) and not(is flat)",
      "\"\\u00e9 \\\\ \\\"\"");
  TypeStore types;
  const Result<Parsed> first = parsed(text, false, types);
  INFO(text);
  if (!first) INFO(first.errors().front().message);
  REQUIRE(first);
  const std::string printed = print(*first->tree);
  INFO("printed as " << printed);
  const Result<Parsed> second = parsed(printed, false, types);
  REQUIRE(second);
  CHECK(same_tree(*first->tree, *second->tree));
}
