#include <catch2/catch.hpp>

#include "engine/calendar.h"
#include "reference_script.h"

namespace engine {
namespace {

DateTime date_time_of(const char* text) {
  const auto value = parse_date_time(text);
  INFO("date and time: " << text);
  REQUIRE(value);
  return *value;
}

template <class Value>
std::string offset_text(const Value& value) {
  const auto offset = offset_of(value);
  return offset ? text_of(*offset) : "no value";
}

TEST_CASE("a date and time has the offset of its zone at that moment", "[calendar]") {
  // Source: the IANA time zone database; `TZ=Europe/London date -d 2024-07-01T12:00 +%z` prints one.
  struct Row {
    const char* because;
    const char* value;
    const char* offset;
  };
  const auto row = GENERATE(values<Row>({
      {"a local time has none", "2024-07-01T12:00:00", "no value"},
      {"UTC", "2024-07-01T12:00:00Z", "PT0S"},
      {"an offset is its own", "2024-07-01T12:00:00-02:45:55", "-PT2H45M55S"},
      {"winter in London", "2024-01-01T12:00:00@Europe/London", "PT0S"},
      {"summer in London", "2024-07-01T12:00:00@Europe/London", "PT1H"},
      {"the year in which London kept summer time", "1970-01-01T12:00:00@Europe/London", "PT1H"},
      {"summer in Melbourne", "2021-01-01T10:10:10@Australia/Melbourne", "PT11H"},
      {"the hour that London skips has the offset before", "2024-03-31T01:30:00@Europe/London", "PT0S"},
      {"the hour that London has twice is the first", "2024-10-27T01:30:00@Europe/London", "PT1H"},
      {"mean time before there were zones", "-2021-01-01T10:10:10@Europe/Paris", "PT9M21S"},
      {"the first moment", "-999999999-01-01T00:00:00@Europe/Paris", "PT9M21S"},
      {"the last year that the zone files list", "2037-07-01T12:00:00@Europe/London", "PT1H"},
      {"winter beyond it", "2038-01-01T12:00:00@Europe/London", "PT0S"},
      {"summer beyond it", "2038-07-01T12:00:00@Europe/London", "PT1H"},
      {"winter in Melbourne beyond it", "2051-07-01T12:00:00@Australia/Melbourne", "PT10H"},
      {"a leap day beyond it", "2040-02-29T12:00:00@Australia/Melbourne", "PT11H"},
      {"the last summer", "999999999-07-01T12:00:00@Europe/Paris", "PT2H"},
  }));
  INFO(row.because << ": " << row.value);
  CHECK(offset_text(date_time_of(row.value)) == row.offset);
}

TEST_CASE("a time without a date has the zone's standard offset", "[calendar]") {
  struct Row {
    const char* because;
    const char* time;
    const char* offset;
  };
  const auto row = GENERATE(values<Row>({
      {"a local time has none", "12:00:00", "no value"},
      {"an offset is its own", "12:00:00+05:00", "PT5H"},
      {"London keeps Greenwich time", "12:00:00@Europe/London", "PT0S"},
      {"Dublin, whose law calls summer time standard", "12:00:00@Europe/Dublin", "PT0S"},
      {"Melbourne, where January is summer", "12:00:00@Australia/Melbourne", "PT10H"},
  }));
  INFO(row.because << ": " << row.time);
  const auto time = parse_time(row.time);
  REQUIRE(time);
  CHECK(offset_text(*time) == row.offset);
}

TEST_CASE("the time line runs through the changes of the clocks", "[calendar]") {
  struct Row {
    const char* because;
    const char* from;
    std::int64_t seconds;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"an hour into summer time", "2024-03-31T00:30:00@Europe/London", 3'600,
       "2024-03-31T02:30:00@Europe/London"},
      {"an hour out of summer time", "2024-10-27T01:30:00@Europe/London", 3'600,
       "2024-10-27T01:30:00@Europe/London"},
      {"two hours out of summer time", "2024-10-27T01:30:00@Europe/London", 7'200,
       "2024-10-27T02:30:00@Europe/London"},
      {"24 hours into summer time", "2024-03-30T12:00:00@Europe/London", 86'400,
       "2024-03-31T13:00:00@Europe/London"},
      {"24 hours back out of it", "2024-03-31T13:00:00@Europe/London", -86'400,
       "2024-03-30T12:00:00@Europe/London"},
      {"into a summer beyond the listed years", "2050-03-27T00:30:00@Europe/London", 3'600,
       "2050-03-27T02:30:00@Europe/London"},
      {"before there were zones", "-2021-01-01T10:10:10@Australia/Melbourne", -3'600,
       "-2021-01-01T09:10:10@Australia/Melbourne"},
  }));
  INFO(row.because << ": " << row.from << " + " << row.seconds << " s");
  const auto result = add(date_time_of(row.from), Duration{row.seconds, 0});
  REQUIRE(result);
  CHECK(text_of(*result) == row.result);
}

TEST_CASE("a zone is known by its name, letter by letter", "[calendar]") {
  const auto paris = named_zone("Europe/Paris");
  REQUIRE(paris);
  CHECK(paris->kind == Zone::Kind::named);
  CHECK(paris->name == "Europe/Paris");
  CHECK(named_zone("Etc/UTC"));
  for (const char* unknown :
       {"", "xyz/abc", "europe/paris", "Europe/", "Europe", "../etc/passwd", "localtime", "Z"}) {
    INFO(unknown);
    CHECK_FALSE(named_zone(unknown));
  }
}

TEST_CASE("the name of a zone outlives the text it was read from", "[calendar]") {
  std::optional<DateTime> value;
  {
    const std::string text = "2024-07-01T12:00:00@Europe/London";
    value = parse_date_time(text);
  }
  REQUIRE(value);
  CHECK(text_of(*value) == "2024-07-01T12:00:00@Europe/London");
}

TEST_CASE("a zone that the database lacks gives no value, and no exception", "[calendar]") {
  const Zone unknown{Zone::Kind::named, 0, "Nowhere/Land"};
  const Time time{0, unknown};
  const DateTime value{{2024, 7, 1}, time};
  CHECK_FALSE(offset_of(time));
  CHECK_FALSE(offset_of(value));
  CHECK_FALSE(add(value, Duration{1, 0}));
  CHECK_FALSE(between(value, value));
  CHECK(compare(value, value) == std::partial_ordering::unordered);
  CHECK(same_fields(value, value));
}

TEST_CASE("an offset reaches 18 hours either way", "[calendar]") {
  CHECK(offset_zone(64'800));
  CHECK(offset_zone(-64'800));
  CHECK_FALSE(offset_zone(64'801));
  CHECK_FALSE(offset_zone(-64'801));
  CHECK_FALSE(offset_zone(INT64_MIN));
}

TEST_CASE("offsets agree with Python's zoneinfo, also where the zone files only give a rule", "[calendar]") {
  // Outside check: the zoneinfo module of Python 3, which reads the rule at the end of each zone file.
  test::ReferenceScript script("zones_reference.py");
  int compared = 0;
  std::string zone, date;
  while (script.lines() >> zone >> date) {
    for (const int minute : {30, 90, 150, 210, 720}) {
      std::int64_t expected = 0;
      script.lines() >> expected;
      const DateTime value{parse_date(date).value(), {minute * 60'000'000'000LL, named_zone(zone).value()}};
      const auto offset = offset_of(value);
      if (!offset || offset->seconds != expected) {
        FAIL(text_of(value) << " should be " << expected << " seconds east of UTC");
      }
    }
    ++compared;
  }
  if (script.unavailable()) return;
  CHECK(compared == 7 * (365 * 66 + 16));  // seven zones, 2026 to 2091
}

}  // namespace
}  // namespace engine
