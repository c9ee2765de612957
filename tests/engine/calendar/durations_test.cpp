#include <catch2/catch.hpp>

#include "engine/calendar.h"

namespace engine {
namespace {

std::string printed(const std::optional<std::variant<Months, Duration>>& duration) {
  if (!duration) return "no value";
  return std::visit([](const auto& kind) { return text_of(kind); }, *duration);
}

template <class Value>
std::string text_or_none(const std::optional<Value>& value) {
  return value ? text_of(*value) : "no value";
}

Duration seconds_and_nanos(const char* text) {
  const auto duration = parse_duration(text);
  REQUIRE(duration);
  REQUIRE(std::holds_alternative<Duration>(*duration));
  return std::get<Duration>(*duration);
}

TEST_CASE("a duration is read from its form and printed in its shortest", "[calendar]") {
  // Source: XML Schema Part 2, 3.4.26 and 3.4.27 (yearMonthDuration and dayTimeDuration).
  struct Row {
    const char* because;
    const char* text;
    const char* text_printed;
  };
  const auto row = GENERATE(values<Row>({
      {"a day", "P1D", "P1D"},
      {"hours", "PT2H", "PT2H"},
      {"minutes", "PT3M", "PT3M"},
      {"seconds", "PT4S", "PT4S"},
      {"part of a second", "PT0.999S", "PT0.999S"},
      {"all parts", "P1DT2H3M4.123456789S", "P1DT2H3M4.123456789S"},
      {"a minus sign before it", "-PT1H2M", "-PT1H2M"},
      {"half a second back", "-PT0.5S", "-PT0.5S"},
      {"a second and a half back", "-P1DT1.5S", "-P1DT1.5S"},
      {"minutes beyond an hour", "PT1000M", "PT16H40M"},
      {"hours beyond a day", "PT240H", "P10D"},
      {"seconds beyond an hour", "PT3600S", "PT1H"},
      {"digits beyond nanoseconds are cut", "PT0.1234567899S", "PT0.123456789S"},
      {"no digits after the point", "PT0.S", "PT0S"},
      {"no time at all", "PT0M", "PT0S"},
      {"no days at all", "P0D", "PT0S"},
      {"no days at all, backwards", "-P0D", "PT0S"},
      {"years and months", "P1Y2M", "P1Y2M"},
      {"months beyond a year", "P26M", "P2Y2M"},
      {"months beyond a year, backwards", "-P100M", "-P8Y4M"},
      {"no years at all", "P0Y", "P0M"},
      {"a very long time", "-P999999999M", "-P83333333Y3M"},
      {"the longest count of months", "P9223372036854775807M", "P768614336404564650Y7M"},
      {"months beyond what can be counted", "P9223372036854775808M", "no value"},
      {"years beyond what can be counted", "P768614336404564651Y", "no value"},
      {"days beyond what can be counted", "P106751991167301D", "no value"},
      {"a sum beyond what can be counted", "P106751991167300DT16H", "no value"},
      {"years and days do not mix", "P1Y1D", "no value"},
      {"months and hours do not mix", "P1MT1H", "no value"},
      {"there are no weeks", "P1W", "no value"},
      {"nothing counted", "P", "no value"},
      {"nothing counted after the T", "PT", "no value"},
      {"a T with nothing behind it", "P1DT", "no value"},
      {"a number without a letter", "P0", "no value"},
      {"the P is missing", "1D", "no value"},
      {"hours need a T", "P1H", "no value"},
      {"seconds need a T", "P1S", "no value"},
      {"days come before the T", "PT1D", "no value"},
      {"months come after years", "P1M1Y", "no value"},
      {"seconds come after minutes", "PT1S1M", "no value"},
      {"the same part twice", "P1D1D", "no value"},
      {"two T", "PT1HT1M", "no value"},
      {"only seconds have a fraction", "PT1.5H", "no value"},
      {"a month has no fraction", "P1.5M", "no value"},
      {"a fraction needs a digit before the point", "PT.5S", "no value"},
      {"a sign inside", "P-1D", "no value"},
      {"a plus sign", "+P1D", "no value"},
      {"small letters", "p1d", "no value"},
      {"a space behind", "P1D ", "no value"},
      {"an empty text", "", "no value"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(printed(parse_duration(row.text)) == row.text_printed);
}

TEST_CASE("whole seconds are floored, and the nanoseconds stand on top of them", "[calendar]") {
  CHECK(seconds_and_nanos("-PT0.25S") == Duration{-1, 750'000'000});
  CHECK(seconds_and_nanos("PT0.25S") == Duration{0, 250'000'000});
  CHECK(seconds_and_nanos("-PT1S") == Duration{-1, 0});
  CHECK(Duration{-1, 750'000'000} < Duration{});
}

TEST_CASE("durations add up and turn round", "[calendar]") {
  struct Row {
    const char* left;
    const char* right;
    const char* sum;
  };
  const auto row = GENERATE(values<Row>({
      {"P1D", "P2D", "P3D"},
      {"PT24H", "P1D", "P2D"},
      {"P1D", "-PT2H", "PT22H"},
      {"-P1D", "PT2H", "-PT22H"},
      {"PT0.6S", "PT0.7S", "PT1.3S"},
      {"PT0.3S", "-PT0.7S", "-PT0.4S"},
      {"-PT0.6S", "-PT0.7S", "-PT1.3S"},
      {"PT9223372036854775807S", "PT1S", "no value"},
      {"PT9223372036854775807.5S", "PT0.5S", "no value"},
      {"PT9223372036854775807.5S", "-PT0.5S", "P106751991167300DT15H30M7S"},
      {"-PT9223372036854775807S", "-PT2S", "no value"},
  }));
  INFO(row.left << " + " << row.right);
  const Duration left = seconds_and_nanos(row.left);
  const Duration right = seconds_and_nanos(row.right);
  CHECK(text_or_none(add(left, right)) == row.sum);
  CHECK(text_or_none(add(right, left)) == row.sum);
  const auto turned = negated(left);
  REQUIRE(turned);
  CHECK(add(left, *turned) == Duration{});
}

TEST_CASE("months add up and turn round", "[calendar]") {
  CHECK(add(Months{12}, Months{-2}) == Months{10});
  CHECK(negated(Months{-14}) == Months{14});
  CHECK_FALSE(add(Months{INT64_MAX}, Months{1}));
  CHECK_FALSE(negated(Months{INT64_MIN}));
}

TEST_CASE("the longest durations backwards can be printed and have no opposite", "[calendar]") {
  CHECK(text_of(Months{INT64_MIN}) == "-P768614336404564650Y8M");
  CHECK(text_of(Duration{INT64_MIN, 0}) == "-P106751991167300DT15H30M8S");
  CHECK(text_of(Duration{INT64_MIN, 500'000'000}) == "-P106751991167300DT15H30M7.5S");
  CHECK_FALSE(negated(Duration{INT64_MIN, 0}));
  CHECK(negated(Duration{INT64_MIN, 500'000'000}) == Duration{INT64_MAX, 500'000'000});
}

}  // namespace
}  // namespace engine
