#include "advice/open_variables.h"

#include <catch2/catch.hpp>
#include <set>

using namespace engine;

namespace {

std::string text_of_sizes(const std::vector<SizeCandidate>& sizes) {
  std::string text;
  for (const SizeCandidate& size : sizes) text += (text.empty() ? "" : " ") + std::to_string(size.tenths);
  return text;
}

}  // namespace

TEST_CASE("the sizes tried stand on every side of every threshold", "[advice]") {
  struct Row {
    const char* because;
    std::int32_t least, most;
    std::vector<std::int32_t> thresholds;
    std::uint32_t between;
    const char* tenths;
  };
  const auto row = GENERATE(values<Row>({
      {"the ends alone and one between them when no rule draws a line", 80, 120, {}, 1, "80 90 120"},
      {"a threshold, and one size on each side of it", 80, 120, {100}, 1, "80 90 100 110 120"},
      {"thresholds outside the bounds part nothing", 80, 120, {50, 200}, 1, "80 90 120"},
      {"thresholds at the ends are there anyway", 80, 120, {80, 120}, 1, "80 90 120"},
      {"no whole millimetre between two thresholds: a tenth", 90, 100, {}, 1, "90 91 100"},
      {"nothing between neighbours", 90, 91, {}, 1, "90 91"},
      {"one size only", 90, 90, {}, 1, "90"},
      {"as many between as sizes are open, for each order of them", 80, 120, {}, 2, "80 90 110 120"},
  }));
  INFO(row.because);
  CHECK(text_of_sizes(size_candidates(row.least, row.most, row.thresholds, row.between)) == row.tenths);
}

TEST_CASE("the stretches of the sizes tried are the whole span, each tenth once", "[advice]") {
  const std::vector<std::int32_t> thresholds = {50, 60, 95, 100, 101, 200};
  const std::uint32_t between = GENERATE(1U, 2U, 3U, 4U);
  std::int32_t next = 1;
  for (const SizeCandidate& size : size_candidates(1, 3000, thresholds, between)) {
    CHECK(size.stretch.from == next);
    CHECK(size.stretch.from <= size.tenths);
    CHECK(size.tenths <= size.stretch.to);
    next = size.stretch.to + 1;
  }
  CHECK(next == 3001);
}

TEST_CASE("an open type and its dysplasia are one variable, and only pairs that are reported occur",
          "[advice]") {
  Arena arena;
  std::vector<OpenFact> facts(2);
  facts[0].path = "exam.lesions[0].histology.type";
  facts[1].path = "exam.lesions[0].histology.dysplasia";
  for (const char* type :
       {"tubular adenoma", "sessile serrated lesion", "hyperplastic polyp", "adenocarcinoma"}) {
    facts[0].options.push_back(Value::string(type));
  }
  for (const char* grade : {"none", "low grade", "high grade"})
    facts[1].options.push_back(Value::string(grade));
  facts[0].why = facts[1].why = OpenFact::Why::awaited;
  facts[1].type_fact = 0;

  const OpenVariables open = open_variables(facts, {}, Record{}, arena);
  REQUIRE(open.variables.size() == 1);
  const Variable& pairs = open.variables[0];
  std::set<std::string> found;
  for (std::uint32_t i = 0; i < pairs.candidates; ++i) {
    found.insert(std::string(pairs.columns[0].values[i].string()) + ", " +
                 std::string(pairs.columns[1].values[i].string()));
  }
  // `common practice`: an adenoma is dysplastic by definition, a hyperplastic polyp is not.
  CHECK(found == std::set<std::string>{"tubular adenoma, low grade", "tubular adenoma, high grade",
                                       "sessile serrated lesion, none", "sessile serrated lesion, low grade",
                                       "sessile serrated lesion, high grade", "hyperplastic polyp, none",
                                       "adenocarcinoma, high grade"});
}

TEST_CASE("a fact with too many candidates stays open instead of being cut short", "[advice]") {
  Arena arena;
  std::vector<OpenFact> facts(1);
  facts[0].why = OpenFact::Why::bounded;
  const std::int64_t count = GENERATE(256, 257);
  for (std::int64_t i = 0; i < count; ++i) facts[0].options.push_back(Value::number(i));
  const OpenVariables open = open_variables(facts, {}, Record{}, arena);
  CHECK((open.of_fact[0].variable == OpenVariables::none) == (count > 256));
}
