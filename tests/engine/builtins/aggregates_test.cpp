// Built-ins that make one value of many. Source: DMN 1.5, table 76; rows marked `ours` are readings of
// docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("an aggregate has the value of its table", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"nulls are counted", "count([1, null])", "2"},
      {"a single value is a list of one", "count(7)", "1"},
      {"the least", "min([6, 14, -3])", "-3"},
      {"the largest of several arguments", "max(1, 3.5, 2)", "3.5"},
      {"the last of strings", R"(max(["a", "B", "c"]))", R"("c")"},
      {"the earliest date", R"(min([date("2024-03-01"), date("2024-02-29")]))", R"(date("2024-02-29"))"},
      {"the longest duration", R"(max([duration("P11M"), duration("P1Y")]))", R"(duration("P1Y"))"},
      {"types mixed", "min([1, \"2\"])", "null"},
      {"a local and a zoned time", R"(min([time("10:00:00"), time("10:00:00Z")]))", "null"},
      {"a null item", "max([1, null])", "null"},
      {"only a null item", "max([null])", "null"},
      {"a sum without error", "sum([0.1, 0.2])", "0.3"},
      {"a sum with a null", "sum([1, null])", "null"},
      {"a mean", "mean([1, 2, 4])", "2.333333333333333333333333333333333"},
      {"the middle one", "median([8, 2, 5, 3, 4])", "4"},
      {"between the middle two", "median(6, 1, 2, 3)", "2.5"},
      {"the most frequent, ascending", "mode([3, 6, 1, 9, 6, 1, 3])", "[1, 3, 6]"},
      {"the same number in two forms", "mode([1, 1.0, 2])", "[1]"},
      {"of a sample", "decimal(stddev([2, 4, 7, 5]), 12)", "2.081665999466"},
      {"of one", "stddev([47])", "null"},
      {"a product", "product([2.5, 1, 2.5, 3])", "18.75"},
      {"by name", "product(list: [2, 3])", "6"},
      {"a product beyond all numbers", "product([1e4000, 1e4000])", "null"},
      {"no argument", "min()", "null"},
      {"null is no list", "sum(null)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("nothing has no least, largest or mean", "[feel][builtins]") {
  struct Row {
    const char* text;
    const char* value;
    const char* notes;
  };
  const auto row = GENERATE(values<Row>({
      {"count([])", "0", ""},
      {"min([])", "null", "empty_list"},
      {"max([])", "null", "empty_list"},
      {"sum([])", "null", "empty_list"},
      {"mean([])", "null", "empty_list"},
      {"median([])", "null", "empty_list"},
      {"mode([])", "[]", ""},
      {"all([])", "true", ""},
      {"any([])", "false", ""},
      {"product([])", "null", "bad_argument"},
      {"stddev([])", "null", "bad_argument"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == row.value);
  CHECK(notes_of(row.text) == row.notes);
}

TEST_CASE("all and any know three truth values", "[feel][builtins]") {
  struct Row {
    const char* text;
    const char* value;
    const char* notes;
  };
  const auto row = GENERATE(values<Row>({
      {"all([true, true])", "true", ""},
      {"all([true, null, false])", "false", ""},
      {"all(true, null)", "null", ""},
      {"any([false, null, true])", "true", ""},
      {"any(false, null)", "null", ""},
      {"all([true, 123, true])", "null", "bad_argument"},
      {"any([true, 123])", "null", "bad_argument"},
      {"all(list: null)", "null", "bad_argument"},
  }));
  INFO(row.text);
  CHECK(value_of(row.text) == row.value);
  CHECK(notes_of(row.text) == row.notes);
}
