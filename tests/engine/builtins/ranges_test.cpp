// How points and ranges lie to one another. Source: DMN 1.5, table 78.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::value_of;

TEST_CASE("points and ranges lie to one another as the table says", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a point before a point", "before(1, 10)", "true"},
      {"a point at the start", "before(1, [1..10])", "false"},
      {"a point at a start left out", "before(1, (1..10])", "true"},
      {"a range before a point at its end", "before([1..10), 10)", "true"},
      {"ranges that share an end", "before([1..10], [10..20])", "false"},
      {"ranges that share an end left out", "before([1..10], (10..20])", "true"},
      {"after mirrors before", "after((11..20], [1..11])", "true"},
      {"meets at a common end", "meets([1..5], [5..10])", "true"},
      {"does not meet at an end left out", "meets([1..5), [5..10])", "false"},
      {"both left out do not meet", "meets([1..5), (5..10])", "false"},
      {"met by", "met by([5..10], [1..5])", "true"},
      {"overlap at one point", "overlaps([1..5], [5..8])", "true"},
      {"no overlap at a point left out", "overlaps([5..8], [1..5))", "false"},
      {"overlap within", "overlaps([3..5], [1..8])", "true"},
      {"overlaps before", "overlaps before([1..5], (1..5])", "true"},
      {"overlaps before, but goes on longer", "overlaps before([1..9], [3..8])", "false"},
      {"overlaps after", "overlaps after((1..5], [1..5))", "true"},
      {"finishes", "finishes([5..10), [1..10))", "true"},
      {"a point finishes", "finishes(10, [1..10])", "true"},
      {"a point left out does not", "finishes(10, [1..10))", "false"},
      {"finished by", "finished by([1..10], (1..10])", "true"},
      {"includes a point", "includes((1..10], 1)", "false"},
      {"includes a range", "includes([1..10], (1..10))", "true"},
      {"includes no range beyond", "includes((1..10), [1..10])", "false"},
      {"during", "during(5, [1..10])", "true"},
      {"starts", "starts((1..5], (1..10])", "true"},
      {"starts otherwise", "starts([1..5], (1..10])", "false"},
      {"started by", "started by([1..10], 1)", "true"},
      {"coincides", "coincides([1..5], [1..5])", "true"},
      {"coincides but for an end", "coincides([1..5), [1..5])", "false"},
      {"points coincide", "coincides(5, 5.0)", "true"},
      {"dates", R"(before(date("2024-02-28"), [date("2024-02-29")..date("2024-03-31")]))", "true"},
      {"an endless range includes", "includes((>= 10), [10..20])", "true"},
      {"nothing lies before an endless start", "before(-100, (< 10))", "false"},
      {"two endless ranges overlap", "overlaps((< 10), (> 5))", "true"},
      {"two endless ranges apart", "overlaps((< 5), (> 5))", "false"},
      {"a range of one value is a point", "before((= 5), 6)", "true"},
      {"by name", "includes(point: 4, range: [1..3])", "false"},
      {"points by name", "before(point2: 4, point1: 3)", "true"},
      {"ranges by name", "overlaps(range2: [5..6], range1: [1..3])", "false"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("what has no place is null", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
  };
  const auto row = GENERATE(values<Row>({
      {"a null point", "before(null, 1)"},
      {"two types", R"(before(1, "2"))"},
      {"a point and a range of another type", R"(includes(["a".."c"], 1))"},
      {"a local time and a zoned one", R"(before(time("10:00:00"), time("11:00:00Z")))"},
      {"points do not meet", "meets(1, 1)"},
      {"a point does not include", "includes(1, [1..1])"},
      {"a point does not coincide with a range", "coincides(1, [1..1])"},
      {"all but one value", "before((!= 5), 6)"},
      {"an end that is not known", "before([null..5], 6)"},
      {"truth has no order", "before(false, true)"},
      {"names that do not tell which comes first", "before(point: 4, range: [5..6])"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == "null");
  CHECK_FALSE(testing::notes_of(row.text).empty());
}
