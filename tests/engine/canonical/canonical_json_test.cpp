#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>

#include "canonical/canonical_element.h"
#include "canonical/canonical_parts.h"
#include "engine/canonical.h"
#include "record/json_text.h"

namespace engine {
namespace {

using nlohmann::json;

/// Through the other reader and writer, which must agree.
std::string canonical_by_element(const std::string& text) {
  simdjson::dom::parser parser;
  const auto root = parse_json(text, "test", parser);
  REQUIRE(root);
  std::string out;
  append_canonical(out, *root);
  return out;
}

TEST_CASE("JSON has one canonical form", "[canonical]") {
  struct Row {
    const char* because;
    const char* text;
    const char* canonical;
  };
  const auto row = GENERATE(values<Row>({
      {"RFC 8785, 3.2.2: values of every kind",
       R"({"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
           "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]})",
       R"({"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],)"
       "\"string\":\"\xE2\x82\xAC$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}"},
      {"RFC 8785, 3.2.3: keys are ordered by UTF-16 code units",
       R"({"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
           "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
           "\u00f6": "Latin Small Letter O With Diaeresis"})",
       "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\xC2\x80\":\"Control\","
       "\"\xC3\xB6\":\"Latin Small Letter O With Diaeresis\",\"\xE2\x82\xAC\":\"Euro Sign\","
       "\"\xF0\x9F\x98\x80\":\"Emoji: Grinning Face\",\"\xEF\xAC\xB3\":\"Hebrew Letter Dalet With Dagesh\"}"},
      {"RFC 8785, 3.2.2.2: the short escapes", R"("\b\t\n\f\r\u0001\u001f\u007f")",
       "\"\\b\\t\\n\\f\\r\\u0001\\u001f\x7F\""},
      {"a key that begins another comes first", R"({"ab":1,"a":2,"":3})", R"({"":3,"a":2,"ab":1})"},
      {"keys are ordered at every depth", R"({"b":[{"d":1,"c":2}],"a":{}})",
       R"({"a":{},"b":[{"c":2,"d":1}]})"},
      {"nothing in it", "[ [ ] , { } ]", "[[],{}]"},
      {"minus zero", "[-0, -0.0, 0e5]", "[0,0,0]"},
      {"whole numbers however written", "[1.0, 10e-1, 1]", "[1,1,1]"},
      {"a whole number beyond the exact ones", "[9007199254740993, -9007199254740993, 18446744073709551615]",
       "[9007199254740992,-9007199254740992,18446744073709552000]"},
      {"a value alone", " true ", "true"},
  }));
  INFO(row.because);
  CHECK(canonical_json(json::parse(row.text)) == row.canonical);
  CHECK(canonical_by_element(row.text) == row.canonical);
}

json random_value(std::mt19937& random, int depth) {
  const auto text = [&] {
    static const std::string_view pieces[] = {"a", "Z", "\"",           "\\",           "\n", "\x01",
                                              "é", "€", "\xEE\x80\x80", "\xEF\xBF\xBF", "😀",  "0"};
    std::string out;
    for (auto left = random() % 4; left > 0; --left) out += pieces[random() % std::size(pieces)];
    return out;
  };
  switch (random() % (depth > 0 ? 8 : 6)) {
    case 0:
      return nullptr;
    case 1:
      return random() % 2 == 0;
    case 2:
      return static_cast<std::int64_t>(random()) - 2'000'000'000;
    case 3:
      return static_cast<double>(random()) / 1000;
    case 4:
      return std::numeric_limits<std::uint64_t>::max() - random();
    case 5:
      return text();
    case 6: {
      json list = json::array();
      for (auto left = random() % 4; left > 0; --left) list.push_back(random_value(random, depth - 1));
      return list;
    }
    default: {
      json object = json::object();
      for (auto left = random() % 5; left > 0; --left) object[text()] = random_value(random, depth - 1);
      return object;
    }
  }
}

TEST_CASE("both writers of canonical JSON agree, and what they write is canonical already", "[canonical]") {
  std::mt19937 random(3);
  for (int i = 0; i < 3000; ++i) {
    const json value = random_value(random, 4);
    const std::string canonical = canonical_json(value);
    INFO(value.dump());
    REQUIRE(canonical_by_element(value.dump()) == canonical);
    REQUIRE(canonical_json(json::parse(canonical)) == canonical);
  }
}

/// The order as the standard words it: the strings as UTF-16, compared unit by unit.
std::u16string utf16(std::uint32_t code_point) {
  if (code_point < 0x10000) return {static_cast<char16_t>(code_point)};
  const std::uint32_t rest = code_point - 0x10000;
  return {static_cast<char16_t>(0xD800 + (rest >> 10)), static_cast<char16_t>(0xDC00 + (rest & 0x3FF))};
}

std::string utf8(std::uint32_t c) {
  const auto byte = [](std::uint32_t value) { return static_cast<char>(value); };
  if (c < 0x80) return {byte(c)};
  if (c < 0x800) return {byte(0xC0 | c >> 6), byte(0x80 | (c & 0x3F))};
  if (c < 0x10000) return {byte(0xE0 | c >> 12), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
  return {byte(0xF0 | c >> 18), byte(0x80 | (c >> 12 & 0x3F)), byte(0x80 | (c >> 6 & 0x3F)),
          byte(0x80 | (c & 0x3F))};
}

TEST_CASE("the order of keys is that of their UTF-16 code units", "[canonical]") {
  std::mt19937 random(16);
  const auto code_point = [&]() -> std::uint32_t {
    constexpr std::uint32_t edges[] = {0x41,   0x7F,   0x80,   0x7FF,   0x800,
                                       0xD7FF, 0xE000, 0xFFFF, 0x10000, 0x10FFFF};
    return random() % 2 == 0 ? edges[random() % std::size(edges)]
                             : static_cast<std::uint32_t>(random() % 0xD800);
  };
  for (int i = 0; i < 20'000; ++i) {
    std::string a, b;
    std::u16string wide_a, wide_b;
    for (auto left = random() % 3; left > 0; --left) {  // a common beginning
      const std::uint32_t c = code_point();
      a += utf8(c), b += utf8(c), wide_a += utf16(c), wide_b += utf16(c);
    }
    const std::uint32_t end_a = code_point(), end_b = code_point();
    a += utf8(end_a), b += utf8(end_b), wide_a += utf16(end_a), wide_b += utf16(end_b);
    INFO(end_a << " and " << end_b);
    REQUIRE(key_before(a, b) == (wide_a < wide_b));
  }
}

TEST_CASE("numbers that JSON cannot hold become null, as in ECMAScript", "[canonical]") {
  CHECK(canonical_json(json{std::numeric_limits<double>::infinity()}) == "[null]");
  CHECK(canonical_json(json{std::numeric_limits<double>::quiet_NaN()}) == "[null]");
}

}  // namespace
}  // namespace engine
