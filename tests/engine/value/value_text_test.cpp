// Values as FEEL text. What is written is read back the same.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::value_of;

TEST_CASE("a literal reads back as the value it was written from", "[value]") {
  const auto literal = GENERATE(values<const char*>({
      "null",
      "true",
      "-0.25",
      "100000000000000000000000000000000",
      R"("a \"quoted\" \\ word\n\tand \u0007")",
      R"("größer 🐎")",
      R"(date("2024-02-29"))",
      R"(date("-0044-03-15"))",
      R"(time("10:20:30.5Z"))",
      R"(date and time("2024-02-29T10:20:30@Europe/Paris"))",
      R"(duration("-P1Y2M"))",
      R"(duration("P1DT2H3M4.5S"))",
      "[]",
      R"([1, [2, null], "x"])",
      "{}",
      R"({a: 1, b c: {d: []}})",
      R"({"": 1, "if": 2, "a-b": 3, "a  b": 4, "1a": 5, "a // b": 6, ä2: 7})",
      "[1..3)",
      "(1..3]",
      R"(["a".."c"])",
      R"([date("2024-01-31")..date("2024-02-29")])",
      "(<5)",
      "(<=5)",
      "(>5)",
      "(>=-5)",
      "(=5)",
      "(!=5)",
  }));
  CHECK(value_of(literal) == literal);
}

TEST_CASE("string() of a value is its text without quotes", "[value]") {
  engine::Arena arena;
  const auto text_of_value = [&](const char* text) {
    return text_of(engine::evaluate(text, {}, arena).operator*().value);
  };
  CHECK(text_of_value(R"("a\nb")") == "a\nb");
  CHECK(text_of_value(R"(date("2024-02-29"))") == "2024-02-29");
  CHECK(text_of_value(R"(duration("P12M"))") == "P1Y");
  CHECK(text_of_value(R"([date("2024-02-29"), "a"])") == R"([date("2024-02-29"), "a"])");
  CHECK(text_of_value("null") == "null");
}

TEST_CASE("a function shows its parameters", "[value]") {
  CHECK(value_of("modulo") == "function(dividend, divisor)");
}

TEST_CASE("every type has the name FEEL gives it", "[value]") {
  CHECK(engine::type_name(engine::Kind::years_and_months) == "years and months duration");
  CHECK(engine::type_name(engine::Kind::date_time) == "date and time");
  CHECK(engine::type_name(engine::Kind::null) == "null");
}
