// Where a FEEL name begins and ends. Source: DMN 1.5, 10.3.1.4; docs/feel.md section 2.

#include <catch2/catch.hpp>

#include "support/feel.h"

using engine::Named;
using engine::Value;
using testing::value_of;

TEST_CASE("the longest known name wins", "[feel][syntax]") {
  const std::vector<Named> scope = {{"a", Value::number(7)},           {"b", Value::number(2)},
                                    {"a-b", Value::number(100)},       {"days in weekend", Value::number(2)},
                                    {"profit and loss", Value::number(40)}, {"total", Value::number(1)},
                                    {"total amount", Value::number(5)}, {"in1", Value::number(11)},
                                    {"order", Value::number(3)},        {"if only", Value::number(9)}};
  struct Row { const char* because; const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"a name with a hyphen", "a-b", "100"},
      {"spaces make it a subtraction", "a - b", "5"},
      {"parentheses force the operator", "(a)-(b)", "5"},
      {"a name that holds a keyword", "days in weekend + 1", "3"},
      {"another one", "profit and loss", "40"},
      {"the longer of two", "total amount", "5"},
      {"the shorter where the longer does not fit", "total + 1", "2"},
      {"white space inside counts once", "total \n  amount", "5"},
      {"a keyword is one only as a whole word", "in1 + order", "14"},
      {"a name that begins with a keyword", "if only + 1", "10"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text, scope) == row.value);
}

TEST_CASE("context keys are names of the text that follows", "[feel][syntax]") {
  struct Row { const char* because; const char* text; const char* value; };
  const auto row = GENERATE(values<Row>({
      {"an entry sees the earlier ones", "{first part: 2, whole: first part * 3}.whole", "6"},
      {"a path knows its keys", "{size in mm: 12}.size in mm + 1", "13"},
      {"a quoted key", "{\"odd key!\": 1, b: 2}.b", "2"},
      {"keys of list items", "[{size in mm: 3}, {size in mm: 12}][size in mm >= 10].size in mm", "[12]"},
      {"a filter may use `item`", "[1, 5, 9][item > 4]", "[5, 9]"},
      {"items with other keys are dropped silently", "[{x: 1}, {y: 2}][y > 1]", "[{y: 2}]"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a mistake in the text is named with its place", "[feel][syntax]") {
  struct Row { const char* text; const char* error; };
  const auto row = GENERATE(values<Row>({
      {"1 +", "expression:1:4: error: expected an expression, found the end of the text\n"
              "    1 | 1 +\n"
              "      |    ^\n"},
      {"if true then 1", "expression:1:15: error: expected `else`, found the end of the text\n"
                         "    1 | if true then 1\n"
                         "      |               ^\n"
                         "  help: FEEL has no `if` without `else`\n"},
      {"1 < 2 < 3", "expression:1:7: error: comparisons cannot be chained\n"
                    "    1 | 1 < 2 < 3\n"
                    "      |       ^\n"
                    "  help: write `a < b and b < c`\n"},
      {"\"open", "expression:1:1: error: a string has no closing quote\n"
                 "    1 | \"open\n"
                 "      | ^\n"},
      {"1 # 2", "expression:1:3: error: `#` is not part of FEEL\n"
                "    1 | 1 # 2\n"
                "      |   ^\n"},
      {"[1, 2", "expression:1:6: error: expected `]`, found the end of the text\n"
                "    1 | [1, 2\n"
                "      |      ^\n"},
      {"1 instance of nmber", "expression:1:15: error: no type is called `nmber`\n"
                              "    1 | 1 instance of nmber\n"
                              "      |               ^^^^^\n"
                              "  help: did you mean `number`?\n"},
      {"/* no end", "expression:1:1: error: a comment that starts with `/*` has no `*/`\n"
                    "    1 | /* no end\n"
                    "      | ^\n"},
  }));
  engine::Arena arena;
  const auto answer = engine::evaluate(row.text, {}, arena);
  REQUIRE_FALSE(answer);
  CHECK(text_of(answer.errors().front()) == row.error);
}

TEST_CASE("nesting beyond the limit is an error and no crash", "[feel][syntax]") {
  const std::string deep = std::string(100'000, '(') + "1" + std::string(100'000, ')');
  CHECK(value_of(deep) == "error: the expression is nested more than 200 deep");
  CHECK(value_of(std::string(100'000, '-') + "1") == "error: the expression is nested more than 200 deep");
  CHECK(value_of(std::string(100'000, '[')) == "error: the expression is nested more than 200 deep");
}
