// Law: what is printed parses to the same tree.

#include <catch2/catch.hpp>

#include "builtins/index.h"
#include "syntax/parser.h"

using namespace engine;

TEST_CASE("a printed expression parses to the same tree", "[feel][syntax]") {
  const char* text = GENERATE(
      "1 + 2 * 3", "(1 + 2) * 3", "2 ** 3 ** 2", "2 ** (3 ** 2)", "-(1 + 2)", "--1", "-2 ** 2", "1 - (2 - 3)",
      "a and (b or c)", "a and b or c", "not(a = b)", "a between 1 and 2", "a in [1..3]", "a in (1, 2, > 5)",
      "a in (b, ]1..2[)", "if a then b else c", "(if a then b else c) + 1", "for x in 1..3 return x",
      "for x in [1, 2], y in x return x + y", "some x in a satisfies x > 1", "every x in a satisfies x = b",
      "{k: 1, \"odd key\": [2, \"three\"]}", "a.b", "a[item > 1]", "a[1]", "(< 10)", "(>= 1)",
      "function(x: number, y) x + y", "(function(x) x)(1)", "substring(string: \"abc\", start position: 2)",
      "a instance of list<number>", "a instance of context<k: string>", "@\"2024-02-29\"", "\"q\\\"uote\\n\"",
      "date(2024, 2, 29).year", "(a + b).c");
  Layout layout;
  Scope scope(&builtin_scope(), &layout);
  for (const char* name : {"a", "b", "c"}) scope.add_variable(name);
  TypeStore types;
  const Result<Parsed> first = parse_expression(text, {&scope, &types, "test"});
  REQUIRE(first);
  const std::string printed = print(*first->tree);
  INFO(text << " printed as " << printed);
  const Result<Parsed> second = parse_expression(printed, {&scope, &types, "test"});
  REQUIRE(second);
  CHECK(same_tree(*first->tree, *second->tree));
}
