#include <catch2/catch.hpp>

#include "support/feel.h"
#include "value/value_copy.h"

TEST_CASE("a copy does not need what it was copied from", "[value]") {
  engine::Arena kept;
  engine::Value twin;
  const std::string text = R"({a: ["x", 1.5, 12345678901234567890123456789, null], b: time("10:00:00Z"),)"
                           R"( c: ["p".."q"], d: {e: date and time("2024-02-29T10:00:00")}})";
  std::string before;
  {
    engine::Arena passing;
    const engine::Value value = engine::evaluate(text, {}, passing).operator*().value;
    before = literal_of(value);
    twin = copy(value, kept);
  }
  CHECK(literal_of(twin) == before);
}

TEST_CASE("a copy can change what it passes, at every depth", "[value]") {
  engine::Arena arena;
  const engine::Value value = engine::evaluate("[1, {a: [null, 2]}, null]", {}, arena).operator*().value;
  const auto zero_for_null = [](const engine::Value& v) {
    return v.is_null() ? engine::Value::number(0) : v;
  };
  CHECK(literal_of(copy(value, arena, zero_for_null)) == "[1, {a: [0, 2]}, 0]");
}
