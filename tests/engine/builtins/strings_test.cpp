// Built-ins on strings. Source: DMN 1.5, table 75; rows marked `ours` are readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::value_of;

TEST_CASE("a part of a string is counted in code points", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"from a position on", R"(substring("foobar", 3))", R"("obar")"},
      {"so many", R"(substring("foobar", 3, 3))", R"("oba")"},
      {"from the end", R"(substring("foobar", -2, 1))", R"("a")"},
      {"a length with a fraction is cut", R"(substring("foobar", 3, 3.8))", R"("oba")"},
      {"a length beyond the end (ours)", R"(substring("foobar", 5, 10))", R"("ar")"},
      {"a huge length (ours)", R"(substring("foobar", 5, 1e30))", R"("ar")"},
      {"position 0", R"(substring("foobar", 0))", "null"},
      {"beyond the end", R"(substring("foobar", 7))", "null"},
      {"beyond the start", R"(substring("foobar", -7))", "null"},
      {"no length", R"(substring("foobar", 3, 0))", "null"},
      {"a null length", R"(substring("foobar", 3, null))", "null"},
      {"a horse is one character", R"(substring("\U01F40Efoo", 2))", R"("foo")"},
      {"by name", R"(substring(length: 2, string: "foobar", start position: 2))", R"("oo")"},
      {"length counts a horse once", R"(string length("\U01F40E"))", "1"},
      {"before", R"(substring before("foobar", "bar"))", R"("foo")"},
      {"before what is not there", R"(substring before("foobar", "x"))", R"("")"},
      {"after", R"(substring after("foobar", "ob"))", R"("ar")"},
      {"after nothing", R"(substring after("foobar", ""))", R"("foobar")"},
      {"after what is not there", R"(substring after("", "a"))", R"("")"},
      {"by name", R"(substring after(match: "o", string: "foo"))", R"("o")"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("strings are tested, changed and joined", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"contains", R"(contains("foobar", "oba"))", "true"},
      {"everything contains nothing", R"(contains("", ""))", "true"},
      {"contains null", R"(contains("foobar", null))", "null"},
      {"starts with", R"(starts with("foobar", "foo"))", "true"},
      {"starts with more than there is", R"(starts with("fo", "foo"))", "false"},
      {"ends with", R"(ends with(string: "foobar", match: "bar"))", "true"},
      {"a number has no end", R"(ends with(12, "2"))", "null"},
      {"capitals of accented and other letters", R"(upper case("größe я ω"))", R"("GRÖSSE Я Ω")"},
      {"small letters", R"(lower case("ÀÉÎ Ω Я"))", R"("àéî ω я")"},
      {"what has no case stays", R"(lower case("?@{1"))", R"("?@{1")"},
      {"joined", R"(string join(["a", "b", "c"], " and "))", R"("a and b and c")"},
      {"without a delimiter", R"(string join(["a", "b"]))", R"("ab")"},
      {"a null delimiter is none", R"(string join(["a", "b"], null))", R"("ab")"},
      {"nulls are passed over", R"(string join([null, "a", null, "c"], "X"))", R"("aXc")"},
      {"nothing joined", R"(string join([], "X"))", R"("")"},
      {"one string is a list of one", R"(string join("a", "X"))", R"("a")"},
      {"numbers are not joined", "string join([1, 2], \"X\")", "null"},
      {"null is no list", "string join(null)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}
