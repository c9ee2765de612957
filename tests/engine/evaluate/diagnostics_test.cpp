// What each diagnostic of evaluation says, word for word. The codes are those of docs/feel.md section 17.

#include <catch2/catch.hpp>

#include "engine/model.h"

using namespace engine;

namespace {

struct Row {
  const char* feel;
  const char* said;
};

}  // namespace

TEST_CASE("what a diagnostic says", "[feel]") {
  const auto row = GENERATE(values<Row>({
      {"1 + \"a\"",
       "no_arithmetic: `+` has no result for a number and a string with these values"},
      {"1 / 0",
       "no_arithmetic: `/` has no result for a number and a number with these values"},
      {"nowhere + 1",
       "unknown_name: nothing here is called `nowhere` | no_arithmetic: `+` has no result for a null and a number with these values"},
      {"{a: 1}.b",
       "no_such_key: there is no `b` in the context"},
      {"null.a",
       "path_of_null: null has no `a`"},
      {"5(1)",
       "not_a_function: a number cannot be called"},
      {"(function(x) x)(1, 2)",
       "wrong_arguments: the function takes 1 argument, not 2"},
      {"abs(\"a\")",
       "bad_argument: `abs`: argument 1 is a string, expected a number or duration"},
      {"substring(\"abc\", 0)",
       "bad_argument: `substring`: there is no position 0 in the string"},
      {"min([])",
       "empty_list: `min` of no items is null"},
      {"median([])",
       "empty_list: `median` of no items is null"},
      {"[1, 2][\"a\"]",
       "bad_predicate: a filter needs a number or a boolean, not a string"},
      {"[{x: null}][x.y = 1]",
       "path_of_null: null has no `y`"},
      {"for i in 1..\"a\" return i",
       "bad_iteration: an iteration needs a list, or a range of whole numbers or dates"},
      {"[1..\"a\"]",
       "bad_range: a range needs two ends of the same ordered type, not a number and a string"},
      {"1 < \"a\"",
       "type_clash: a number cannot be ordered with a string"},
      {"1 in [\"a\"..\"b\"]",
       "type_clash: a number cannot be placed in the range `[\"a\"..\"b\"]`"},
      {"@\"2026-13-40\"",
       "bad_literal: `2026-13-40` is no date, time or duration"},
      {"now()",
       "no_clock: `now`: no time was set for this evaluation"},
      {"today()",
       "no_clock: `today`: no time was set for this evaluation"},
      {"date(\"2026-01-01\").hour",
       "no_such_property: a date has no `hour`"},
      {"not(1)",
       "bad_argument: `not`: argument 1 is a number, expected a boolean"},
      {"if 5 then 1 else 2",
       "bad_condition: a condition must be a boolean, not a number"},
      {"some x in [1] satisfies 5",
       "bad_condition: `satisfies` needs a boolean, not a number"},
      {"{a: 1, a: 2}",
       "duplicate_key: the key `a` stands twice"},
      {"(function(x) external {java: {class: \"a\", \"method signature\": \"b\"}})(1)",
       "external_function: external functions are not supported"},
      {"sort([1, \"a\"], function(x, y) x < y)",
       "type_clash: a string cannot be ordered with a number | bad_argument: `sort`: the function gave a null, expected a boolean"},
      {"number(\"abc\")",
       "bad_argument: `number`: `abc` is no number"},
      {"9E+6144 * 10",
       "no_arithmetic: `*` has no result for a number and a number with these values"},
      {"count(for i in 1..20000000 return 1)",
       "budget_exhausted: an iteration over more than 10000000 items | bad_argument: `count`: argument 1 is a null, expected a list"},
      {"(function(f, n) f(f, n))(function(f, n) f(f, n + 1), 1)",
       "budget_exhausted: calls are nested more than 2000 deep"},
      {"null[1]",
       "filter_of_null: null cannot be filtered"},
      {"duration(\"P1Y\") + duration(\"P1D\")",
       "no_arithmetic: `+` has no result for a years and months duration and a days and time duration with these values"},
      {"time(\"12:00:00\") < time(\"12:00:00Z\")",
       "type_clash: a local time cannot be ordered with a zoned one"},
      {"get value({a: 1}, \"b\")",
       "no_such_key: there is no `b` in the context"},
      {"context put({a: 1}, [], 1)",
       "bad_argument: `context put`: the list of keys is empty"},
      {"list replace([1], 5, 1)",
       "bad_argument: `list replace`: there is no position 5 in a list of 1"},
      {"string join([1])",
       "bad_argument: `string join`: a number cannot be joined"},
      {"split(\"a\", \"(\")",
       "bad_argument: `split`: `(` is no pattern: a `(` has no `)`"},
      {"-\"a\"",
       "no_arithmetic: a string cannot be negated"},
      {"2 ** \"a\"",
       "no_arithmetic: `**` has no result for a number and a string with these values"},
      {"1 between \"a\" and 2",
       "type_clash: a number cannot be ordered with a string"},
      {"5 in (? + 1)",
       "unknown_name: nothing here is called `?` | no_arithmetic: `+` has no result for a null and a number with these values"},
  }));
  Arena arena;
  const auto answer = evaluate(row.feel, {}, arena);
  INFO(row.feel);
  REQUIRE(answer);
  std::string said;
  for (const Diagnostic& d : answer->diagnostics) {
    said += (said.empty() ? "" : " | ") + std::string(d.code) + ": " + d.message;
  }
  CHECK(said == row.said);
}
