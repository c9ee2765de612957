// Values of expressions. Source: DMN 1.5 chapter 10; rows marked `ours` are readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("an expression has the value the specification gives", "[feel]") {
  struct Row { const char* because; const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"powers associate to the left", "3 ** 4 ** 2", "6561"},
      {"minus binds tighter than power", "-3 ** 2", "9"},
      {"34 digits, half to even", "1 / 3 * 3", "0.9999999999999999999999999999999999"},
      {"division by zero", "1 / 0", "null"},
      {"a string and a number do not add", "\"a\" + 1", "null"},
      {"5 and 5.00 are equal", "5 = 5.00", "true"},
      {"an end point not in the range", "10 in (6..10)", "false"},
      {"an end point in the range", "10 in [6..10]", "true"},
      {"a range closed by an opening bracket", "10 in [6..10[", "false"},
      {"a range with its start after its end", "[5..1]", "null"},
      {"a downward iteration", "for x in 3..1 return x", "[3, 2, 1]"},
      {"iterations nest, the first slowest", "for x in [1, 2], y in [3, 4] return x * y", "[3, 4, 6, 8]"},
      {"results so far", "for x in 1..4 return if x = 1 then 1 else x * partial[-1]", "[1, 2, 6, 24]"},
      {"a loop over dates", "for d in [@\"2024-02-28\"..@\"2024-03-01\"] return d.day", "[28, 29, 1]"},
      {"a later entry sees an earlier", "{a: 1, b: a + 1}", "{a: 1, b: 2}"},
      {"a key twice", "{a: 1, a: 2}", "null"},
      {"an index from the end", "[1, 2, 3][-1]", "3"},
      {"index zero", "[1, 2, 3][0]", "null"},
      {"a single value filtered", "100[1]", "100"},
      {"a constant false predicate", "true[false]", "[]"},
      {"a path over a list keeps its length", "[{x: 1}, {y: 2}].y", "[null, 2]"},
      {"null has no keys", "null.a", "null"},
      {"a closure keeps what it captured", "{f: function(n) function(x) x + n, r: f(3)(4)}.r", "7"},
      {"closures made in a loop differ", "for f in (for i in 1..3 return function() i) return f()", "[1, 2, 3]"},
      {"named arguments in any order", "(function(a, b) a - b)(b: 1, a: 5)", "4"},
      {"a missing argument", "(function(a, b) a)(1)", "null"},
      {"an argument of the wrong type", "(function(a: number) a)(\"x\")", "null"},
      {"null is an instance of nothing", "null instance of Any", "false"},
      {"a list by its elements", "[1, 2] instance of list<number>", "true"},
      {"a mixed list", "[1, \"2\"] instance of list<number>", "false"},
      {"only the chosen branch counts", "if false then 1 / 0 else 2", "2"},
      {"a null condition takes the else", "if null then 1 else 2", "2"},
      {"in takes several tests", "5 in (1, > 4)", "true"},
      {"in a list", "2 in [1, 2, 3]", "true"},
      {"comments count as space", "1 /* one */ + // and\n 2", "3"},
      {"a name with spaces after `in`", "some x in [1, 2] satisfies x = 2", "true"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("and, or, some and every know three truth values", "[feel]") {
  struct Row { const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"false and null", "false"}, {"true and null", "null"}, {"null and false", "false"}, {"null and null", "null"},
      {"true or null", "true"},    {"false or null", "null"}, {"null or true", "true"},    {"false and \"x\"", "false"},
      {"true and \"x\"", "null"},  {"some x in [] satisfies x", "false"},  {"every x in [] satisfies x", "true"},
      {"some x in [1, null] satisfies x > 0", "true"},  {"some x in [null, -1] satisfies x > 0", "null"},
      {"every x in [1, null] satisfies x > 0", "null"}, {"every x in [-1, null] satisfies x > 0", "false"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("months clamp to the month's end and are added once", "[feel]") {
  // Source: docs/feel.md section 9, month rule; the same rule as dateutil.relativedelta.
  struct Row { const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"@\"2024-01-31\" + @\"P1M\"", "date(\"2024-02-29\")"}, {"@\"2023-01-31\" + @\"P1M\"", "date(\"2023-02-28\")"},
      {"@\"2024-02-29\" + @\"P1Y\"", "date(\"2025-02-28\")"}, {"@\"2024-02-29\" + @\"P4Y\"", "date(\"2028-02-29\")"},
      {"@\"2024-03-31\" - @\"P1M\"", "date(\"2024-02-29\")"}, {"@\"2023-08-31\" + @\"P6M\"", "date(\"2024-02-29\")"},
      {"@\"2021-01-02\" - @\"PT1H\"", "date(\"2021-01-01\")"}, {"@\"P1M\" * 1.5", "duration(\"P1M\")"},
      {"@\"P10Y11M\" / 2.5", "duration(\"P4Y4M\")"}, {"@\"P3Y\" = @\"P36M\"", "true"},
      {"@\"P3Y\" = @\"P1095D\"", "null"}, {"@\"2026-03-10\" - @\"2026-03-01\"", "duration(\"P9D\")"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a fault inside an expression is null and says why", "[feel]") {
  struct Row { const char* text; const char* codes; };
  const auto row = GENERATE(values<Row>({
      {"1 = \"1\"", "type_clash"},        {"1 < null", "type_clash"},      {"\"a\" * 2", "no_arithmetic"},
      {"missing", "unknown_name"},        {"(1)(2)", "not_a_function"},    {"@\"never\"", "bad_literal"},
      {"{a: 1}.b", "no_such_key"},        {"1.b", "no_such_property"},     {"null[1]", "filter_of_null"},
      {"for x in null return x", "bad_iteration"}, {"if 1 then 2 else 3", "bad_condition"},
      {"[3..1]", "bad_range"},            {"-\"a\"", "no_arithmetic"},     {"1e999999", "bad_literal"},
      {"[1, 2][\"a\"]", "bad_predicate"}, {"{a: 1, a: 2}", "duplicate_key"},
      {"(function(x) external x)(1)", "external_function"}, {"(function(x) x)(y: 1)", "wrong_arguments"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == "null");
  CHECK(notes_of(row.text) == row.codes);
}

TEST_CASE("an endless recursion ends in a diagnostic", "[feel][budget]") {
  const char* text = "{f: function(g, n) g(g, n + 1), r: f(f, 0)}.r";
  CHECK(value_of(text) == "null");
  CHECK(notes_of(text) == "budget_exhausted");
}

TEST_CASE("a loop without end in sight ends in a diagnostic", "[feel][budget]") {
  CHECK(value_of("for x in 1..100000000000 return x") == "null");
  CHECK(notes_of("for x in 1..100000000000 return x") == "budget_exhausted");
  CHECK(notes_of("for x in 1..5000000, y in 1..5000000 return 1") == "budget_exhausted");
}

TEST_CASE("the largest number is 34 nines, wherever its zeros are kept", "[feel]") {
  struct Row { const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"9e6144 + 9e6144", "null"}, {"9e6144 + 1e6144", "null"}, {"-9e6144 - 9e6144", "null"}, {"9e6144 * 10", "null"},
      {"9e6144 - 9e6144", "0"}, {"4e6144 + 4e6144 = 8e6144", "true"}, {"9e6145", "null"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a function is a value that outlives its text", "[feel]") {
  engine::Arena arena;
  const auto answer = engine::evaluate("function(a, b) a + b", {}, arena);
  REQUIRE(answer);
  CHECK(literal_of(answer->value) == "function(a, b)");
}
