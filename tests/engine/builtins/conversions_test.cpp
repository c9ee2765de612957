// Built-ins that make one type of another. Source: DMN 1.5, tables 73, 74 and 81; rows marked `ours` are
// readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("numbers are read from text", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"as FEEL writes them", R"(number("-12.50"))", "-12.5"},
      {"an exponent", R"(number("1.5e3"))", "1500"},
      {"a point to group, a comma for decimals", R"(number("1.000.000,01", ".", ","))", "1000000.01"},
      {"spaces to group", R"(number("1 000 000.01", " ", "."))", "1000000.01"},
      {"nothing to group", R"(number("1000000.01", null, "."))", "1000000.01"},
      {"the decimal separator is a point when null", R"(number("1,000.5", ",", null))", "1000.5"},
      {"by name", R"(number(from: "1.000,01", decimal separator: ",", grouping separator: "."))", "1000.01"},
      {"another group than said", R"(number("1,000", " ", "."))", "null"},
      {"groups among the decimals", R"(number("1.000,5", ",", "."))", "null"},
      {"a group without a digit behind it", R"(number("1,", ",", "."))", "null"},
      {"a point that is no separator", R"(number("1.5", null, ","))", "null"},
      {"the same separator twice", R"(number("1,000", ",", ","))", "null"},
      {"the same, since null is a point", R"(number("1.000", ".", null))", "null"},
      {"a separator that is none", R"(number("1:000", ":", "."))", "null"},
      {"two of three arguments", R"(number("1.000", "."))", "null"},
      {"text", R"(number("twelve"))", "null"},
      {"no text", "number(12)", "null"},
      {"34 digits", R"(number("0.1234567890123456789012345678901234"))",
       "0.1234567890123456789012345678901234"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("every value has a text", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a number without zeros at its end", "string(1.50)", R"("1.5")"},
      {"plain digits", "string(1.5e10)", R"("15000000000")"},
      {"a boolean", "string(true)", R"("true")"},
      {"a string is itself", R"(string("a\"b"))", R"("a\"b")"},
      {"a date stands bare", R"(string(date("2024-02-29")))", R"("2024-02-29")"},
      {"a duration, normalised", R"(string(duration("P26M")))", R"("P2Y2M")"},
      {"a list", R"(string([1, "a", null]))", R"("[1, \"a\", null]")"},
      {"a context", R"(string({a: "foo", b c: 1}))", R"("{a: \"foo\", b c: 1}")"},
      {"a range", "string((1..3])", R"("(1..3]")"},
      {"by name", "string(from: 1)", R"("1")"},
      {"null", "string(null)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("null has no text, and that is no error", "[feel][builtins]") {
  CHECK(notes_of("string(null)").empty());
  CHECK(notes_of("not(null)").empty());
}

TEST_CASE("a range is read from text that holds two literals", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"numbers", R"(range("[1..3]"))", "[1..3]"},
      {"ends left out", R"(range(" ( -1 .. 3 [ "))", "(-1..3)"},
      {"strings", R"(range("[\"a\"..\"c\"]"))", R"(["a".."c"])"},
      {"dates", R"(range("[@\"2024-01-31\"..date(\"2024-02-29\")]"))",
       R"([date("2024-01-31")..date("2024-02-29")])"},
      {"by name", R"(range(from: "[1..3]"))", "[1..3]"},
      {"a name is no literal", R"({a: 1, r: range("[a..3]")}.r)", "null"},
      {"a sum is no literal", R"(range("[1..1 + 2]"))", "null"},
      {"a call within a literal", R"(range("[date(string(\"2024-01-31\"))..@\"2024-02-29\"]"))", "null"},
      {"backwards", R"(range("[3..1]"))", "null"},
      {"two types", R"(range("[1..\"b\"]"))", "null"},
      {"no end", R"(range("[1..]"))", "null"},
      {"null ends", R"(range("[null..null]"))", "null"},
      {"one bound", R"(range(">= 10"))", "null"},
      {"text that is no FEEL", R"(range("[1..3"))", "null"},
      {"a range already", "range([1..3])", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("not and is", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"not true", "not(true)", "false"},
      {"not null", "not(null)", "null"},
      {"not a number", "not(0)", "null"},
      {"the same number in two forms", "is(5, 5.00)", "true"},
      {"two types", R"(is(date("2024-02-29"), date and time("2024-02-29T00:00:00Z")))", "false"},
      {"the same instant in two zones", R"(is(time("20:00:50+00:00"), time("21:00:50+01:00")))", "false"},
      {"Z is +00:00", R"(is(time("23:00:50Z"), time("23:00:50+00:00")))", "true"},
      {"zero years and zero days", R"(is(duration("P0Y"), duration("P0D")))", "false"},
      {"lists, item by item", "is([1, null], [1, null])", "true"},
      {"a value that is not given is null", "is(value2: 1)", "false"},
      {"no value at all", "is()", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}
