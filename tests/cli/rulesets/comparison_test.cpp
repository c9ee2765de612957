#include "rulesets/comparison.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/shipped_rulesets.h"
#include "support/temporary_unit.h"

using namespace cli;
using support::small_answer;
using support::small_ruleset;

namespace {

/// `colonoscopy after FROM when a polyp is of LINE mm or more, else screening`.
std::shared_ptr<const engine::Ruleset> by_size(const std::string& id, const std::string& line,
                                               const std::string& from) {
  return small_ruleset(id, "if some l in exam.lesions satisfies l.size_mm >= " + line + " then " +
                               small_answer("surveillance colonoscopy", from, from, "T-01") + " else " +
                               small_answer("return to screening", "", "", "T-02"))
      .ruleset;
}

std::shared_ptr<const engine::Ruleset> shipped(const std::string& id) {
  const auto ruleset = support::load_shipped(id);
  REQUIRE(ruleset);
  return *ruleset;
}

std::string interval_of(const Outcome& outcome) {
  if (!outcome.interval) return "";
  return engine::text_of(outcome.interval->from) + " " + engine::text_of(outcome.interval->to);
}

}  // namespace

TEST_CASE("a line drawn elsewhere is found with the plainest record on each side", "[compare]") {
  const Comparison comparison = compare(by_size("test-a", "10", "P3Y"), by_size("test-b", "20", "P3Y"));
  REQUIRE(comparison.differences.size() == 1);
  const Difference& difference = comparison.differences[0];
  CHECK(difference.direction == Direction::stops);
  CHECK(difference.example == "1 tubular adenoma of 10 mm in the sigmoid colon");
  CHECK(difference.first.answer == "surveillance colonoscopy");
  CHECK(difference.second.answer == "return to screening");
  CHECK(difference.records == comparison.different);
}

TEST_CASE("the direction of a difference is that of the second ruleset", "[compare]") {
  struct Row {
    const char* because;
    const char *first, *second;
    Direction direction;
    int months;
  };
  const auto row = GENERATE(values<Row>({
      {"three years, then one", "P3Y", "P1Y", Direction::sooner, -24},
      {"one year, then three", "P1Y", "P3Y", Direction::later, 24},
  }));
  INFO(row.because);
  const Comparison comparison =
      compare(by_size("test-a", "10", row.first), by_size("test-b", "10", row.second));
  REQUIRE(comparison.differences.size() == 1);
  CHECK(comparison.differences[0].direction == row.direction);
  CHECK(comparison.differences[0].months == row.months);
  const Comparison turned = compare(by_size("test-b", "20", "P3Y"), by_size("test-a", "10", "P3Y"));
  CHECK(turned.differences.at(0).direction == Direction::starts);
}

TEST_CASE("screening at a date and screening when invited are no end of surveillance", "[compare]") {
  const auto screening = [](const std::string& id, const std::string& months) {
    return small_ruleset(id, small_answer("return to screening", months, months, "T-01")).ruleset;
  };
  const Comparison comparison = compare(screening("test-a", "P10Y"), screening("test-b", ""));
  REQUIRE(comparison.differences.size() == 1);
  CHECK(comparison.differences[0].direction == Direction::other);
}

TEST_CASE("a ruleset does not differ from itself", "[compare]") {
  const auto ruleset = by_size("test-a", "10", "P3Y");
  const Comparison comparison = compare(ruleset, ruleset);
  CHECK(comparison.differences.empty());
  CHECK(comparison.records > 5'000);
}

// Sources: the fact sheets of the two guidelines (2012 to 2020: doi:10.1053/j.gastro.2012.06.001 and
// doi:10.1053/j.gastro.2019.10.026; 2010 to 2020: doi:10.1136/gut.2009.179804 and
// doi:10.1136/gutjnl-2019-319858).
TEST_CASE("the differences that the guidelines are known for are found", "[compare]") {
  struct Known {
    const char* because;
    const char *first_rule, *first_interval, *second_rule, *second_interval;
    Direction direction;
  };
  struct Pair {
    const char *first, *second;
    std::vector<Known> known;
  };
  const Pair pairs[] = {
      {"us-2012",
       "us-2020",
       {
           {"1 or 2 small adenomas: 5 to 10 years, then 7 to 10", "12-A1", "P5Y P10Y", "20-A1", "P7Y P10Y",
            Direction::later},
           {"3 or 4 small adenomas: 3 years, then 3 to 5", "12-A3", "P3Y P3Y", "20-A3", "P3Y P5Y",
            Direction::later},
           {"more than 10 adenomas: under 3 years, then 1", "12-A11", "P0M P3Y", "20-A11", "P1Y P1Y",
            Direction::later},
           {"5 to 10 serrated lesions are counted now", "12-S1", "P5Y P5Y", "20-S5", "P3Y P3Y",
            Direction::sooner},
           {"3 or 4 small adenomas, then a normal colonoscopy: 5 years, then 10", "12-H-N", "P5Y P5Y",
            "20-B3-0", "P10Y P10Y", Direction::later},
           {"1 or 2 small adenomas twice: 5 years, then 7 to 10", "12-L-L", "P5Y P5Y", "20-B1-1", "P7Y P10Y",
            Direction::later},
           {"a large hyperplastic polyp has a row now", "12-S2H", "P3Y P3Y", "20-H3", "P3Y P5Y",
            Direction::later},
       }},
      {"uk-2010",
       "uk-2020",
       {
           {"one adenoma of 10 mm: 3 years, then no surveillance", "10-03", "P3Y P3Y", "20-02", "",
            Direction::stops},
           {"high risk: 1 year, then 3", "10-07", "P1Y P1Y", "20-01", "P3Y P3Y", Direction::later},
           {"an adenoma with high-grade dysplasia counts as advanced: two polyps are high risk", "10-01",
            "P5Y P5Y", "20-01", "P3Y P3Y", Direction::sooner},
           {"the site of a large piecemeal removal: 2 to 3 months, then 2 to 6", "10-10", "P2M P3M", "20-05",
            "P2M P6M", Direction::later},
           {"serrated polyps are counted now", "10-N1", "", "20-01", "P3Y P3Y", Direction::starts},
           {"years after cancer: 5, then 3 after the first clearance", "10-14", "P5Y P5Y", "20-12", "P3Y P3Y",
            Direction::sooner},
       }},
  };
  for (const Pair& pair : pairs) {
    const Comparison comparison = compare(shipped(pair.first), shipped(pair.second));
    for (const Known& known : pair.known) {
      INFO(pair.first << " and " << pair.second << ": " << known.because);
      CHECK(std::any_of(
          comparison.differences.begin(), comparison.differences.end(), [&](const Difference& found) {
            return found.first.rule == known.first_rule && found.second.rule == known.second_rule &&
                   interval_of(found.first) == known.first_interval &&
                   interval_of(found.second) == known.second_interval && found.direction == known.direction;
          }));
    }
  }
}

TEST_CASE("the comparison is told in words and as JSON", "[compare]") {
  const support::TemporaryUnit unit;
  const auto run = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"rulesets", "compare", "test-a", "test-b", "--rulesets", unit.rulesets});
    return support::run_program(words);
  };
  const support::Finished text = run({});
  CHECK(text.code == 0);
  CHECK(text.out.find("test-b asks for it sooner\n  1 tubular adenoma of 4 mm in the sigmoid colon\n") !=
        std::string::npos);
  CHECK(text.out.find("test-b: surveillance colonoscopy, 1 year [T-01], 2 years sooner\n") !=
        std::string::npos);
  const auto whole = nlohmann::json::parse(run({"--format", "json"}).out);
  CHECK(whole["first"] == "test-a");
  CHECK(whole["differences"][0]["direction"] == "sooner");
  CHECK(whole["different"].get<int>() <= whole["records"].get<int>());
}
