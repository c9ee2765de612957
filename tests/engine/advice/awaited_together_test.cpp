// The day of the examination: everything is awaited. Tests of one lesion are worked through as one, so that many
// lesions still are.

#include <catch2/catch.hpp>

#include "engine/advice/advice_summary.h"
#include "engine/advice/small_ruleset.h"

using namespace engine;
using namespace engine::testing;

TEST_CASE("eight polyps whose histology is awaited are worked through completely", "[advice]") {
  const std::string counts =
      "(function(l) l.histology.type in (\"tubular adenoma\", \"tubulovillous adenoma\", \"villous adenoma\") or "
      "(l.histology.type = \"sessile serrated lesion\" and l.histology.dysplasia != \"none\"))";
  const auto ruleset = ruleset_with("if count(exam.lesions[" + counts + "(item)]) >= 5 then " +
                                    answer("surveillance colonoscopy", "P3Y", "T-01") + " else " +
                                    answer("no surveillance", "", "T-02"));
  std::vector<std::string> lesions;
  for (int i = 1; i <= 8; ++i) lesions.push_back(lesion("L" + std::to_string(i), R"("histology":null)"));
  const Advice advice = ask(ruleset, record_with(lesions));
  CHECK(summary_of(advice) == "awaiting pathology: await pathology, by pathology-gate");
  CHECK(advice.possible.size() == 2);
  CHECK(advice.questions.size() == 8);
  CHECK(advice.cautions.size() == 1);  // the standing one: nothing was left out
}
