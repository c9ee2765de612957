// What would change a settled answer, under the ruleset of the United Kingdom, 2020: the limits are the guideline's (five
// premalignant polyps; two of which one advanced, from 10 mm; Rutter 2020, abstract).

#include <catch2/catch.hpp>

#include "engine/advice/advice_summary.h"
#include "engine/advice/small_ruleset.h"
#include "support/shipped_rulesets.h"

using namespace engine;
using namespace engine::testing;

namespace {

/// Each change as `action rule: way / way`.
std::vector<std::string> changes(const std::vector<std::string>& lesions) {
  const auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  const auto record = read_record(record_with(lesions), "test");
  REQUIRE(record);
  Adviser adviser(*ruleset);
  Advice advice = adviser.advise(*record, {2026, 4, 1});
  REQUIRE(advice.state == AdviceState::settled);
  adviser.add_changes(advice, *record, {2026, 4, 1});
  std::vector<std::string> found;
  for (const Possibility& change : advice.changes) {
    std::string text = std::string(text_of(change.action)) + " " + change.rule + ":";
    for (const std::string& way : change.when) text += " / " + way;
    found.push_back(std::move(text));
  }
  return found;
}

bool has(const std::vector<std::string>& all, const std::string& rule, const std::string& way) {
  return std::any_of(all.begin(), all.end(), [&](const std::string& text) {
    return text.find(" " + rule + ":") != std::string::npos && text.find(way) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a settled answer says which fact near it would change it", "[advice][rulesets]") {
  const std::string small = R"("size_mm":4)", nearly = R"("size_mm":9)", large = R"("size_mm":12)";
  SECTION("one small adenoma more makes five") {
    const auto found = changes({lesion("L1", small), lesion("L2", small), lesion("L3", small), lesion("L4", small)});
    CHECK(has(found, "20-01", "one more adenoma of 3 mm"));
  }
  SECTION("10 mm instead of 9 makes one of two advanced") {
    const auto found = changes({lesion("L1", nearly), lesion("L2", small)});
    CHECK(has(found, "20-01", "exam.lesions[0].size_mm >= 10"));
    CHECK(has(found, "20-01", "exam.lesions[0].histology.dysplasia = high grade"));
    CHECK(has(found, "20-15", "adenocarcinoma"));
  }
  SECTION("high risk by a narrow margin: 9 mm instead of 12 would end it") {
    const auto found = changes({lesion("L1", large), lesion("L2", small)});
    CHECK(has(found, "20-02", "exam.lesions[0].size_mm < 10"));
  }
  SECTION("the pathologist's size lies on the other side of the limit") {
    const auto found = changes(
        {lesion("L1", R"("size_mm":9,"histology":{"type":"tubular adenoma","dysplasia":"low grade","margin":"clear","size_mm":11})"),
         lesion("L2", small)});
    CHECK(has(found, "20-01", "the size by pathology counted instead of that by endoscopy, for lesion 1"));
  }
  SECTION("nothing found: only one polyp more and its kin are near, and they change nothing at four") {
    CHECK(changes({}).empty());
  }
}

TEST_CASE("an answer that is not settled has no changes beside its possibilities", "[advice]") {
  const auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  const auto record = read_record(record_with({lesion("L1", R"("histology":null)")}), "test");
  REQUIRE(record);
  Adviser adviser(*ruleset);
  Advice advice = adviser.advise(*record, {2026, 4, 1});
  adviser.add_changes(advice, *record, {2026, 4, 1});
  CHECK(advice.changes.empty());
}
