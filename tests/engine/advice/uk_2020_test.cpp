// The pathology gate and lost polyps under the ruleset of the United Kingdom, 2020.

#include <catch2/catch.hpp>

#include "engine/advice/advice_summary.h"
#include "engine/advice/small_ruleset.h"
#include "support/shipped_rulesets.h"

using namespace engine;
using namespace engine::testing;

namespace {

std::shared_ptr<const Ruleset> uk_2020() {
  const auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  return *ruleset;
}

std::vector<std::string> small_adenomas(int count, const std::string& changes = "") {
  std::vector<std::string> lesions;
  for (int i = 1; i <= count; ++i) {
    lesions.push_back(lesion("L" + std::to_string(i), changes.empty() ? R"("size_mm":4)" : changes));
  }
  return lesions;
}

std::vector<std::string> with(std::vector<std::string> lesions, const std::string& more) {
  lesions.push_back(more);
  return lesions;
}

}  // namespace

TEST_CASE("uk-2020 with polyps whose histology is awaited or lost", "[advice][rulesets]") {
  const auto ruleset = uk_2020();
  struct Row {
    const char* because;
    std::vector<std::string> lesions;
    AdviceState state;
  };
  const auto row = GENERATE(values<Row>({
      {"four small adenomas and a fifth polyp that is awaited: whether it counts decides (fact sheet, 1.1)",
       with(small_adenomas(4), lesion("L5", R"("size_mm":4,"histology":null)")),
       AdviceState::awaiting_pathology},
      {"the same with the fifth polyp lost: never low risk by guess (fact sheet, A9)",
       with(small_adenomas(4), lesion("L5", R"("size_mm":4,"retrieved":false,"histology":null)")),
       AdviceState::depends},
      {"no polyps", {}, AdviceState::settled},
      {"two small adenomas, all reported", small_adenomas(2), AdviceState::settled},
      {"everything is awaited, as on the day of the examination",
       small_adenomas(5, R"("size_mm":6,"histology":null)"), AdviceState::awaiting_pathology},
  }));
  INFO(row.because);
  const Advice advice = ask(ruleset, record_with(row.lesions));
  INFO(text_of(advice));
  CHECK(text_of(advice.state) == text_of(row.state));
  CHECK(advice.questions.empty() == (row.state == AdviceState::settled));
  if (row.state == AdviceState::depends) CHECK(advice.possible.size() >= 2);
}
