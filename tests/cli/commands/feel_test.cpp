#include <catch2/catch.hpp>

#include "support/temporary_unit.h"

using support::Finished;
using support::run_program;

// Source of the values: DMN 1.5, chapter 10.
TEST_CASE("feel prints the value as a literal on one line", "[cli]") {
  struct Row {
    const char* because;
    std::vector<std::string> words;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a sum", {"1 + 2"}, "3\n"},
      {"a string is quoted", {"\"a\" + \"b\""}, "\"ab\"\n"},
      {"names come from the context", {"age + 1", "--context", R"({"age": 70})"}, "71\n"},
      {"names may have spaces", {"the age", "--context", R"({"the age": 70})"}, "70\n"},
      {"a list", {"for i in 1..3 return i * i"}, "[1, 4, 9]\n"},
      {"today is what --today says", {"string(today())", "--today", "2026-03-20"}, "\"2026-03-20\"\n"},
      {"a context", {"{a: 1, b: \"x\"}"}, "{a: 1, b: \"x\"}\n"},
  }));
  INFO(row.because);
  std::vector<std::string> words = row.words;
  words.insert(words.begin(), "feel");
  const Finished finished = run_program(words);
  CHECK(finished.out == row.value);
  CHECK(finished.err.empty());
  CHECK(finished.code == 0);
}

TEST_CASE("an expression that cannot be read is shown with a caret", "[cli]") {
  const Finished finished = run_program({"feel", "1 + * 2"});
  CHECK(finished.code == 3);
  CHECK(finished.out.empty());
  CHECK(finished.err.find("1 + * 2") != std::string::npos);
  CHECK(finished.err.find("^") != std::string::npos);
}

TEST_CASE("a fault of evaluation is null and a note", "[cli]") {
  const Finished finished = run_program({"feel", "1 + \"a\""});
  CHECK(finished.out == "null\n");
  CHECK_FALSE(finished.err.empty());
}

TEST_CASE("a context that is no object is refused", "[cli]") {
  for (const char* context : {"[1]", "{", "7"}) {
    INFO(context);
    const Finished finished = run_program({"feel", "1", "--context", context});
    CHECK(finished.code == 3);
    CHECK(finished.out.empty());
  }
}
