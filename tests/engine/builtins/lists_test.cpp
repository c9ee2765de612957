// Built-ins on lists. Source: DMN 1.5, table 76; rows marked `ours` are readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("lists are looked into", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"an item", "list contains([1, 2], 2)", "true"},
      {"null is an item", "list contains([1, null], null)", "true"},
      {"another type is no item", "list contains([1, 2], \"2\")", "false"},
      {"the same number in another form", "list contains([1.00], 1)", "true"},
      {"null is no list", "list contains(null, 1)", "null"},
      {"by name", "list contains(element: 1, list: [1])", "true"},
      {"positions", "index of([1, 2, 3, 2], 2)", "[2, 4]"},
      {"no position", "index of([1, 2], 3)", "[]"},
      {"positions of null", "index of([null, 1, null], null)", "[1, 3]"},
      {"a part", "sublist([1, 2, 3, 4], 2, 2)", "[2, 3]"},
      {"the rest", "sublist([1, 2, 3], 2)", "[2, 3]"},
      {"from the end", "sublist([1, 2, 3], -2, 1)", "[2]"},
      {"a length beyond the end (ours)", "sublist([1, 2, 3], 2, 9)", "[2, 3]"},
      {"no length (ours)", "sublist([1, 2, 3], 2, 0)", "[]"},
      {"a negative length", "sublist([1, 2, 3], 2, -1)", "null"},
      {"position 0", "sublist([1, 2, 3], 0)", "null"},
      {"beyond the end", "sublist([1, 2, 3], 4)", "null"},
      {"of a single value", "sublist(7, 1)", "[7]"},
      {"by name", "sublist(start position: 3, list: [1, 2, 3])", "[3]"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("lists are made of lists", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"items at the end", "append([1], 2, null)", "[1, 2, null]"},
      {"a list as an item", "append([1], [2])", "[1, [2]]"},
      {"by name", "append(item: 2, list: [1])", "[1, 2]"},
      {"nothing to append", "append([1])", "null"},
      {"lists in a row", "concatenate([1, 2], [3], [])", "[1, 2, 3]"},
      {"a null list", "concatenate([1], null)", "null"},
      {"a union has each value once", "union([1, 2], [2, 3, 1])", "[1, 2, 3]"},
      {"values once, in order", "distinct values([2, 1, 2.0, null, 1, null])", "[2, 1, null]"},
      {"equal contexts are one", "distinct values([{a: 1, b: 2}, {b: 2, a: 1}])", "[{a: 1, b: 2}]"},
      {"in front of a position", "insert before([1, 3], 2, 2)", "[1, 2, 3]"},
      {"in front of the last", "insert before([1, 3], -1, 2)", "[1, 2, 3]"},
      {"behind the last is no position", "insert before([1], 2, 2)", "null"},
      {"into nothing", "insert before([], 1, 2)", "null"},
      {"by name", "insert before(newItem: 0, position: 1, list: [1])", "[0, 1]"},
      {"out of a list", "remove([1, 2, 3], -2)", "[1, 3]"},
      {"from beyond the end", "remove([1, 2, 3], 4)", "null"},
      {"backwards", "reverse([1, 2, 3])", "[3, 2, 1]"},
      {"flat, at all levels", "flatten([[1, [2]], [[[3]]], 4, []])", "[1, 2, 3, 4]"},
      {"nulls stay", "flatten([null, [null]])", "[null, null]"},
      {"another item at a position", "list replace([1, 2, 3], -1, 4)", "[1, 2, 4]"},
      {"a position with a fraction", "list replace([1, 2, 3], 2.5, 4)", "[1, 4, 3]"},
      {"null in its place", "list replace([1, 2], 1, null)", "[null, 2]"},
      {"where a function says so", "list replace([2, 4, 7], function(item, newItem) item < newItem, 5)",
       "[5, 5, 7]"},
      {"by name", "list replace(match: function(i, n) i = 2, newItem: 4, list: [1, 2])", "[1, 4]"},
      {"a function that gives no boolean", "list replace([2], function(item, newItem) item, 5)", "null"},
      {"a function of one parameter", "list replace([2], function(item) true, 5)", "null"},
      {"position 0", "list replace([1], 0, 5)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("lists are sorted by a function, equal items in their order", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"ascending", "sort([3, 1, 5, 4], function(x, y) x < y)", "[1, 3, 4, 5]"},
      {"descending, by name", "sort(precedes: function(x, y) x > y, list: [3, 1, 5, 4])", "[5, 4, 3, 1]"},
      {"equal items keep their order",
       "sort([{k: 2, n: 1}, {k: 1, n: 2}, {k: 2, n: 3}, {k: 1, n: 4}], function(x, y) x.k < y.k).n",
       "[2, 4, 1, 3]"},
      {"nothing", "sort([], function(x, y) x < y)", "[]"},
      {"a function that contradicts itself ends", "count(sort([1, 2, 3, 4, 5], function(x, y) true))", "5"},
      {"a function that gives null", "sort([1, null], function(x, y) x < y)", "null"},
      {"no function", "sort([1, 2], \"<\")", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a list nested deeper than the stack is flattened, written and copied", "[feel][builtins]") {
  CHECK(value_of("flatten((for i in 1..20000 return if i = 1 then [7] else [partial[-1]])[-1])") == "[7]");
}
