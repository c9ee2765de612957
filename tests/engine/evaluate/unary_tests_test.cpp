// Table cells. Source: DMN 1.5, 7.3.11 and table 55; rows marked `ours` are readings of docs/feel.md section 8.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::satisfies;

TEST_CASE("a value satisfies a cell or not, or nobody can tell", "[feel]") {
  struct Row { const char* because; const char* tested; const char* cell; const char* answer; };
  const auto row = GENERATE(values<Row>({
      {"a dash takes all", "1", "-", "true"},
      {"even null", "null", "-", "true"},
      {"an empty cell is a dash", "1", "", "true"},
      {"a bound", "10", ">= 10", "true"},
      {"a number or a bound", "3", "5, < 4", "true"},
      {"a range", "5", "[1..5)", "false"},
      {"a list of strings", "\"b\"", "\"a\", \"b\"", "true"},
      {"null against a bound", "null", "> 5", "null"},
      {"and against its negation", "null", "not(> 5)", "null"},
      {"null matches null", "null", "null", "true"},
      {"not null takes every value (ours)", "1", "not(null)", "true"},
      {"not null does not take null (ours)", "null", "not(null)", "false"},
      {"neither of two", "\"c\"", "not(\"a\", \"b\")", "true"},
      {"a boolean cell is equality", "false", "3 > 1", "false"},
      {"a boolean cell is equality, true", "true", "3 > 1", "true"},
      {"a condition on the value", "4", "? * 2 = 8", "true"},
      {"a condition that is no boolean", "4", "? + 1", "null"},
      {"a list cell contains the value", "2", "[1, 2]", "true"},
      {"another type is no element", "\"2\"", "[1, 2]", "false"},
      {"a list is not one of its values (ours)", "[1, 2]", "1", "null"},
      {"a string that starts with not", "\"x\"", "not(? = \"y\")", "true"},
  }));
  INFO(row.because << ": " << row.tested << " against " << row.cell);
  CHECK(satisfies(row.tested, row.cell) == row.answer);
}
