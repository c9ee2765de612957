// JSON to FEEL values. Source: RFC 8259.

#include <catch2/catch.hpp>

#include "engine/model.h"

namespace {

std::string read(std::string_view json) {
  engine::Arena arena;
  const auto value = engine::value_from_json(json, arena);
  return value ? literal_of(*value) : "error: " + value.errors().front().code;
}

}  // namespace

TEST_CASE("JSON becomes FEEL values, as written", "[value]") {
  struct Row {
    const char* because;
    const char* json;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"an object keeps its order", R"({"b": 1, "a": {"c d": [true, null]}})",
       "{b: 1, a: {c d: [true, null]}}"},
      {"a decimal is exact", "0.1", "0.1"},
      {"more digits than a double has", "[0.12345678901234567890123456789, 12345678901234567890123]",
       "[0.12345678901234567890123456789, 12345678901234567890123]"},
      {"the largest 64 bits", "18446744073709551615", "18446744073709551615"},
      {"the least 64 bits", "-9223372036854775808", "-9223372036854775808"},
      {"an exponent", "1.5E3", "1500"},
      {"a date is a string", R"("2024-02-29")", R"("2024-02-29")"},
      {"so is an at-literal", R"("@\"2024-02-29\"")", R"("@\"2024-02-29\"")"},
      {"escapes", R"("a\u00e9\ud83d\udc0e\n")", R"("aé🐎\n")"},
      {"empty ones", R"([{}, [], ""])", R"([{}, [], ""])"},
      {"a key twice", R"({"a": 1, "a": 1})", "error: duplicate_key"},
      {"the same key in two objects", R"([{"a": 1}, {"a": 1}])", "[{a: 1}, {a: 1}]"},
      {"text behind the value", "1 2", "error: not_json"},
      {"no value", "", "error: not_json"},
      {"an end that is missing", "[1, 2", "error: not_json"},
      {"a number too large for JSON readers", "1e400", "error: not_json"},
      {"bytes that are no UTF-8", "\"\xff\"", "error: not_json"},
  }));
  INFO(row.because << ": " << row.json);
  CHECK(read(row.json) == row.value);
}

TEST_CASE("a key that stands twice is named with its place", "[value]") {
  engine::Arena arena;
  const auto value = engine::value_from_json(R"({"exam": {"lesions": [{}, {"size": 1, "size": 2}]}})", arena);
  REQUIRE_FALSE(value);
  CHECK(value.errors().front().place.path == "exam.lesions[1].size");
}

TEST_CASE("JSON nested too deep is refused", "[value]") {
  const std::string deep(5000, '[');
  CHECK(read(deep + std::string(5000, ']')) == "error: not_json");
}
