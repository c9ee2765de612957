#include <catch2/catch.hpp>

#include "engine/calendar.h"

namespace engine {
namespace {

template <class Value>
std::string text_or_none(const std::optional<Value>& value) {
  return value ? text_of(*value) : "no value";
}

Time time_of(const char* text) {
  const auto time = parse_time(text);
  INFO("time: " << text);
  REQUIRE(time);
  return *time;
}

DateTime date_time_of(const char* text) {
  const auto value = parse_date_time(text);
  INFO("date and time: " << text);
  REQUIRE(value);
  return *value;
}

Duration duration_of(const char* text) {
  const auto duration = parse_duration(text);
  REQUIRE(duration);
  REQUIRE(std::holds_alternative<Duration>(*duration));
  return std::get<Duration>(*duration);
}

const char* word_for(std::partial_ordering order) {
  if (order == std::partial_ordering::less) return "before";
  if (order == std::partial_ordering::greater) return "after";
  return order == std::partial_ordering::equivalent ? "same" : "unordered";
}

TEST_CASE("a time is read only from its form", "[calendar]") {
  // Source: XML Schema Part 2, 3.3.8 (time); DMN 1.5, 10.3.4.1 for `@Zone/Id`.
  struct Row {
    const char* because;
    const char* text;
    const char* printed;
  };
  const auto row = GENERATE(values<Row>({
      {"a plain time", "01:02:03", "01:02:03"},
      {"midnight", "00:00:00", "00:00:00"},
      {"parts of a second", "11:22:33.123456789", "11:22:33.123456789"},
      {"zeros at the end of the fraction", "11:22:33.4400", "11:22:33.44"},
      {"a fraction of zeros", "11:22:33.000", "11:22:33"},
      {"digits beyond nanoseconds are cut", "11:22:33.1234567899", "11:22:33.123456789"},
      {"UTC", "11:00:00Z", "11:00:00Z"},
      {"an offset of nothing is UTC", "11:00:00-00:00", "11:00:00Z"},
      {"an offset east", "13:20:00+02:00", "13:20:00+02:00"},
      {"an offset west", "13:20:00-05:30", "13:20:00-05:30"},
      {"an offset with seconds", "11:59:45+02:45:55", "11:59:45+02:45:55"},
      {"the largest offset", "11:59:45-18:00", "11:59:45-18:00"},
      {"a zone", "00:01:00@Europe/Paris", "00:01:00@Europe/Paris"},
      {"a zone of one word", "00:01:00@UTC", "00:01:00@UTC"},
      {"the end of the day", "24:00:00", "00:00:00"},
      {"the end of the day with a fraction of zeros", "24:00:00.0Z", "00:00:00Z"},
      {"past the end of the day", "24:00:01", "no value"},
      {"a fraction past the end of the day", "24:00:00.1", "no value"},
      {"hours past the end of the day", "25:00:00", "no value"},
      {"there is no minute 60", "00:60:00", "no value"},
      {"leap seconds are not counted", "23:59:60", "no value"},
      {"an hour has two digits", "7:00:00", "no value"},
      {"a minute has two digits", "07:1:00", "no value"},
      {"a second has two digits", "07:01:2", "no value"},
      {"the seconds are missing", "07:20", "no value"},
      {"a point without digits", "11:22:33.", "no value"},
      {"an unknown zone", "13:20:00@xyz/abc", "no value"},
      {"a zone without a name", "13:20:00@", "no value"},
      {"the machine's own zone is not a zone's name", "13:20:00@localtime", "no value"},
      {"a zone's name in small letters", "13:20:00@europe/paris", "no value"},
      {"an offset beyond 18 hours", "13:20:00+18:00:01", "no value"},
      {"an offset of one digit", "13:20:00+5:00", "no value"},
      {"an offset without minutes", "13:20:00+05", "no value"},
      {"an offset with 60 minutes", "13:20:00+05:60", "no value"},
      {"both offset and zone", "13:20:00+02:00@Europe/Paris", "no value"},
      {"both UTC and zone", "13:20:00Z@Europe/Paris", "no value"},
      {"a small z", "13:20:00z", "no value"},
      {"something behind it", "11:30:00T", "no value"},
      {"a space behind it", "11:30:00 ", "no value"},
      {"an empty text", "", "no value"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(text_or_none(parse_time(row.text)) == row.printed);
}

TEST_CASE("a date and time is read only from its form", "[calendar]") {
  struct Row {
    const char* because;
    const char* text;
    const char* printed;
  };
  const auto row = GENERATE(values<Row>({
      {"a date by itself is its midnight", "2012-12-24", "2012-12-24T00:00:00"},
      {"a local time", "2017-12-31T11:22:33", "2017-12-31T11:22:33"},
      {"a time with all there is", "-2017-12-31T11:22:33.456+01:35", "-2017-12-31T11:22:33.456+01:35"},
      {"a time in a zone", "2011-12-31T10:15:30.987@Europe/Paris", "2011-12-31T10:15:30.987@Europe/Paris"},
      {"the last moment", "999999999-12-31T23:59:59.999999999@Europe/Paris",
       "999999999-12-31T23:59:59.999999999@Europe/Paris"},
      {"the end of the day is the next day's midnight", "2021-12-31T24:00:00", "2022-01-01T00:00:00"},
      {"the end of the day, zoned", "2024-02-28T24:00:00+01:00", "2024-02-29T00:00:00+01:00"},
      {"the end of the last day", "999999999-12-31T24:00:00", "no value"},
      {"past the end of the day", "2017-12-31T24:00:01", "no value"},
      {"a T with nothing behind it", "2017-12-31T", "no value"},
      {"the T is missing", "2011-12-0310:15:30", "no value"},
      {"a space in place of the T", "2011-12-03 10:15:30", "no value"},
      {"only a time", "11:00:00", "no value"},
      {"a day that does not exist", "2023-02-29T11:00:00", "no value"},
      {"a time that does not exist", "2017-12-31T00:60:00", "no value"},
      {"both offset and zone", "2011-12-03T10:15:30+01:00@Europe/Paris", "no value"},
      {"a date may not have a zone", "2011-12-03Z", "no value"},
      {"an empty text", "", "no value"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(text_or_none(parse_date_time(row.text)) == row.printed);
}

TEST_CASE("a time is made only from numbers that name one", "[calendar]") {
  CHECK(text_or_none(make_time(11, 59, 45, 300'000'000, {})) == "11:59:45.3");
  CHECK(text_or_none(make_time(0, 0, 0, 0, offset_zone(-9'955).value())) == "00:00:00-02:45:55");
  CHECK_FALSE(make_time(24, 0, 0, 0, {}));
  CHECK_FALSE(make_time(-1, 0, 0, 0, {}));
  CHECK_FALSE(make_time(23, 60, 0, 0, {}));
  CHECK_FALSE(make_time(23, -1, 0, 0, {}));
  CHECK_FALSE(make_time(23, 59, 60, 0, {}));
  CHECK_FALSE(make_time(23, 59, -1, 0, {}));
  CHECK_FALSE(make_time(23, 59, 59, 1'000'000'000, {}));
  CHECK_FALSE(make_time(23, 59, 59, -1, {}));
}

TEST_CASE("a time wraps at midnight", "[calendar]") {
  struct Row {
    const char* time;
    const char* duration;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"10:15:00", "PT1H", "11:15:00"},
      {"23:30:00", "PT1H", "00:30:00"},
      {"00:30:00", "-PT1H", "23:30:00"},
      {"10:15:00+11:00", "P1D", "10:15:00+11:00"},
      {"10:15:00@Australia/Melbourne", "-PT1H", "09:15:00@Australia/Melbourne"},
      {"00:00:00", "-PT0.000000001S", "23:59:59.999999999"},
      {"00:00:00", "PT9223372036854775807S", "15:30:07"},
  }));
  INFO(row.time << " + " << row.duration);
  CHECK(text_of(add(time_of(row.time), duration_of(row.duration))) == row.result);
}

TEST_CASE("a date and time moves along the time line, in its own zone", "[calendar]") {
  struct Row {
    const char* because;
    const char* from;
    const char* duration;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"a day and an hour", "2021-01-12T10:10:10", "P1DT1H", "2021-01-13T11:10:10"},
      {"back over the new year", "2021-01-01T10:10:10", "-P1D", "2020-12-31T10:10:10"},
      {"over midnight", "2021-01-02T00:00:00", "-PT1H", "2021-01-01T23:00:00"},
      {"half a second back over midnight", "2021-01-02T00:00:00.2Z", "-PT0.5S", "2021-01-01T23:59:59.7Z"},
      {"with an offset", "2021-01-01T10:10:10+11:00", "PT14H", "2021-01-02T00:10:10+11:00"},
      {"past the last day", "999999999-12-31T23:59:59", "PT1S", "no value"},
      {"past the last day, zoned", "999999999-12-31T23:59:59@Europe/Paris", "PT1S", "no value"},
      {"far past the last day", "2021-01-01T00:00:00Z", "PT9223372036854775807S", "no value"},
      {"far past the first day, zoned", "2021-01-01T00:00:00@Europe/Paris", "-PT9223372036854775807S",
       "no value"},
  }));
  INFO(row.because << ": " << row.from << " + " << row.duration);
  CHECK(text_or_none(add(date_time_of(row.from), duration_of(row.duration))) == row.result);
}

TEST_CASE("months move the date and keep time and zone", "[calendar]") {
  CHECK(text_or_none(add(date_time_of("2024-01-31T10:10:10.5@Europe/Paris"), Months{1})) ==
        "2024-02-29T10:10:10.5@Europe/Paris");
  CHECK(text_or_none(add(date_time_of("-2021-01-01T10:10:10+11:00"), Months{-1})) ==
        "-2022-12-01T10:10:10+11:00");
  CHECK_FALSE(add(date_time_of("999999999-12-01T10:10:10"), Months{1}));
}

TEST_CASE("times are compared by the fields or by the instant, never across", "[calendar]") {
  struct Row {
    const char* because;
    const char* left;
    const char* right;
    const char* order;
    const char* between;  ///< From left to right.
    bool equal;
    bool same_fields;
  };
  const auto row = GENERATE(values<Row>({
      {"an hour apart", "10:30:00", "11:30:00", "before", "PT1H", false, false},
      {"the same local time", "10:30:00", "10:30:00.0", "same", "PT0S", true, true},
      {"equality ignores part of a second", "10:30:00.1", "10:30:00.2", "before", "PT0.1S", true, false},
      {"Z is the offset 0", "10:30:00Z", "10:30:00+00:00", "same", "PT0S", true, true},
      {"the same instant with two offsets", "10:00:00Z", "12:00:00+02:00", "same", "PT0S", true, false},
      {"on the same day, not the nearest", "23:00:00Z", "01:00:00+02:00", "after", "-P1D", false, false},
      {"local and zoned", "10:30:00", "10:30:00Z", "unordered", "no value", false, false},
      {"zoned and local", "10:30:00@Etc/UTC", "10:30:00", "unordered", "no value", false, false},
      {"a zone and its offset", "23:00:50@Etc/GMT", "23:00:50Z", "same", "PT0S", true, false},
      {"two zones, standard time", "10:30:00@Europe/Paris", "10:30:00@Asia/Dhaka", "after", "-PT5H", false,
       false},
      {"two names of one offset", "23:00:50@Australia/Melbourne", "23:00:50@Australia/Sydney", "same", "PT0S",
       true, false},
      {"the same zone", "10:10:10@Europe/Paris", "10:10:10@Europe/Paris", "same", "PT0S", true, true},
  }));
  INFO(row.because << ": " << row.left << " and " << row.right);
  const Time left = time_of(row.left);
  const Time right = time_of(row.right);
  CHECK(word_for(compare(left, right)) == std::string(row.order));
  CHECK(text_or_none(between(left, right)) == row.between);
  CHECK(equal(left, right) == row.equal);
  CHECK(same_fields(left, right) == row.same_fields);
}

TEST_CASE("dates with times are compared by the fields or by the instant, never across", "[calendar]") {
  struct Row {
    const char* because;
    const char* left;
    const char* right;
    const char* order;
    const char* between;  ///< From left to right.
    bool equal;
    bool same_fields;
  };
  const auto row = GENERATE(values<Row>({
      {"a day apart", "2021-01-01T10:10:10", "2021-01-02T10:10:10", "before", "P1D", false, false},
      {"equality ignores part of a second", "2018-12-08T00:00:00.0001", "2018-12-08", "after", "-PT0.0001S",
       true, false},
      {"the same instant over midnight", "2002-04-02T23:00:00-04:00", "2002-04-03T02:00:00-01:00", "same",
       "PT0S", true, false},
      {"summer time in Paris", "2018-10-08T00:00:00+02:00", "2018-10-08T00:00:00@Europe/Paris", "same",
       "PT0S", true, false},
      {"winter time in Paris", "2018-02-08T00:00:00+01:00", "2018-02-08T00:00:00@Europe/Paris", "same",
       "PT0S", true, false},
      {"two zones", "2021-01-01T10:10:10@Asia/Dhaka", "2021-01-02T10:10:10@Europe/Paris", "before", "P1DT5H",
       false, false},
      {"over 26 years", "1995-01-01T10:10:10@Asia/Dhaka", "2021-01-02T10:10:10@Europe/Paris", "before",
       "P9498DT5H", false, false},
      {"UTC written twice", "2021-01-02T00:00:00Z", "2021-01-02T00:00:00+00:00", "same", "PT0S", true, true},
      {"local and zoned", "2021-01-01T10:10:10", "2021-01-01T10:10:10@Europe/Paris", "unordered", "no value",
       false, false},
      {"the first and the last moment", "-999999999-01-01", "999999999-12-31T23:59:59.5", "before",
       "P730484999633DT23H59M59.5S", false, false},
  }));
  INFO(row.because << ": " << row.left << " and " << row.right);
  const DateTime left = date_time_of(row.left);
  const DateTime right = date_time_of(row.right);
  CHECK(word_for(compare(left, right)) == std::string(row.order));
  CHECK(text_or_none(between(left, right)) == row.between);
  CHECK(equal(left, right) == row.equal);
  CHECK(same_fields(left, right) == row.same_fields);
}

}  // namespace
}  // namespace engine
