// Built-ins on numbers. Source: DMN 1.5, table 77; rows marked `ours` are readings of docs/feel.md.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::value_of;

TEST_CASE("a number is rounded as its function says", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"half to even, down", "decimal(2.5, 0)", "2"},
      {"half to even, up", "decimal(1.5, 0)", "2"},
      {"to hundreds", "decimal(1250, -2)", "1200"},
      {"a scale with a fraction is cut", "decimal(1 / 3, 2.5)", "0.33"},
      {"by name", "decimal(scale: 3, n: 15 / 7)", "2.143"},
      {"floor goes down below zero", "floor(-1.5)", "-2"},
      {"floor to a scale", "floor(-1.56, 1)", "-1.6"},
      {"ceiling goes up below zero", "ceiling(-1.5)", "-1"},
      {"no negative zero shows", "ceiling(-0.3)", "0"},
      {"up is away from zero", "round up(-5.5, 0)", "-6"},
      {"down is toward zero", "round down(-5.5, 0)", "-5"},
      {"half up is away from zero", "round half up(-5.5, 0)", "-6"},
      {"half down is toward zero", "round half down(-5.5, 0)", "-5"},
      {"half down above the half", "round half down(1.126, 2)", "1.13"},
      {"the largest scale", "round up(5.5, 6176)", "5.5"},
      {"beyond it", "round up(5.5, 6177)", "null"},
      {"below the smallest", "round up(5.5, -6112)", "null"},
      {"round needs a scale", "round up(5.5)", "null"},
      {"a null scale", "floor(1.5, null)", "null"},
      {"a null number", "floor(null)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("arithmetic functions have the value of their table", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"abs of a number", "abs(-1.5)", "1.5"},
      {"abs of a days and time duration", R"(abs(duration("-P1DT0.5S")))", R"(duration("P1DT0.5S"))"},
      {"abs of a years and months duration", R"(abs(n: duration("-P14M")))", R"(duration("P1Y2M"))"},
      {"abs of a date", R"(abs(date("2024-02-29")))", "null"},
      {"modulo has the sign of the divisor", "modulo(-12, 5)", "3"},
      {"modulo by a negative number", "modulo(12, -5)", "-3"},
      {"modulo of fractions", "modulo(-10.1, 4.5)", "3.4"},
      {"modulo by zero", "modulo(1, 0)", "null"},
      {"modulo by name", "modulo(divisor: 4, dividend: 10)", "2"},
      {"a square root to 34 digits", "sqrt(2)", "1.414213562373095048801688724209698"},
      {"no root of a negative number", "sqrt(-1)", "null"},
      {"e to 34 digits", "exp(1)", "2.718281828459045235360287471352662"},
      {"too large", "exp(20000)", "null"},
      {"the logarithm of zero", "log(0)", "null"},
      {"log undoes exp", "decimal(log(exp(2)), 30)", "2"},
      {"odd below zero", "odd(-3)", "true"},
      {"zero is even", "even(0)", "true"},
      {"even with zeros after the point", "even(2.00)", "true"},
      {"a fraction is not odd (ours)", "odd(1.5)", "false"},
      {"a fraction is not even (ours)", "even(1.5)", "false"},
      {"even of 34 digits", "even(9999999999999999999999999999999998)", "true"},
      {"text is no number", R"(even("2"))", "null"},
      {"an unknown name of a parameter", "sqrt(n: 4)", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}
