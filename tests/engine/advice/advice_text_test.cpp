// What a person reads.

#include <catch2/catch.hpp>
#include <tuple>

#include "engine/advice/sample_advice.h"

using namespace engine;
using namespace engine::testing;

// clang-format off
TEST_CASE("the text has the answer on its first line and the standing caution on its last", "[advice]") {
  const auto row = GENERATE(values<std::tuple<const char*, Advice, const char*>>({
      {"settled: the answer, the window, why, the rows, what follows", settled_sample(),
       R"(Site check in 2 to 6 months: due 10 May 2026 to 10 September 2026
  counted    from the resection on 10 March 2026
  why        a 25 mm polyp was removed in pieces
             two premalignant polyps, one of them 10 mm or larger
  rule       20-05: Test guideline 2026, figure 2
               read in a publication that restates the guideline, not in the guideline
             20-01: Test guideline 2026, abstract
               read in the guideline itself
  ruleset    Test guideline (`test-2026`, edition 1.0.0)
  findings   premalignant polyps 2; largest 25; advanced true; class high
  then       surveillance colonoscopy in 3 years from the site check (20-07): once the site is clear
               twice
  flag       genetic assessment (20-99): ten adenomas or more
  assumed    patient.family_history: not stated, taken as none
  caution    row 20-07 is from memory: read it in the paper before use
             this supports and does not replace the judgement of the responsible clinician; local
               policy decides
)"},
      {"awaiting: what is asked, what may come, the earliest date", awaiting_sample(),
       R"(Await pathology: no next step is fixed yet
  why        the histology of 1 lesion is awaited, and decides
  rule       pathology-gate: this program
               a rule of this program, not of the guideline
  ruleset    Test guideline (`test-2026`, edition 1.0.0)
  to ask     exam.lesions[1].histology: the report is awaited: it decides
  possible   surveillance colonoscopy in 3 years: due 10 March 2029 (20-01)
               when exam.lesions[1].histology.type = tubular adenoma
               or exam.lesions[1].size_mm >= 10
             no surveillance (20-02)
  earliest   10 March 2029
  caution    this supports and does not replace the judgement of the responsible clinician; local
               policy decides
)"},
      {"depends: what is asked", depends_sample(),
       R"(No answer yet: it depends on what is not known
  ruleset    Test guideline (`test-2026`, edition 1.0.0)
  to ask     patient.birth_date: not stated: the ruleset cannot answer without it
  caution    this supports and does not replace the judgement of the responsible clinician; local
               policy decides
)"},
      {"outside: where to ask instead, and that the ruleset is superseded", outside_sample(),
       R"(Refer: this patient is outside `test-2026`, ask `test-hereditary`
  why        Lynch syndrome
  rule       20-00: Test guideline 2026, scope
               FROM MEMORY: not read in the guideline or a publication
  ruleset    Test guideline (`test-2026`, edition 1.0.0, superseded)
  caution    this supports and does not replace the judgement of the responsible clinician; local
               policy decides
)"},
      {"refused: what is wrong, and help", refused_sample(),
       R"(Refused: no answer is given
  error      exam.lesions[0].colour: a lesion has no `colour`
               help: did you mean `size_mm`?
  caution    this supports and does not replace the judgement of the responsible clinician; local
               policy decides
)"}}));
  INFO(std::get<0>(row));
  CHECK(text_of(std::get<1>(row)) == std::get<2>(row));
}
// clang-format on

TEST_CASE("answers that differ in their rule alone are told once, by their shortest ways", "[advice]") {
  Advice advice = awaiting_sample();
  Possibility other = advice.possible.front();
  other.rule = "20-03";
  other.when = {std::string(200, 'x'), "exam.lesions[0].size_mm >= 20", "in other ways, too"};
  advice.possible.push_back(other);
  advice.possible[1].when = {std::string(200, 'x')};
  advice.questions.push_back({"exam.lesions[2].histology", "the report is awaited: it decides"});
  const std::string text = text_of(advice);
  CHECK(text.find(R"(
  to ask     exam.lesions[1], [2].histology: the report is awaited: it decides
  possible   surveillance colonoscopy in 3 years: due 10 March 2029 (20-01, 20-03)
               when exam.lesions[1].size_mm >= 10
               or exam.lesions[0].size_mm >= 20
               or in other ways
             no surveillance (20-02)
  earliest)") != std::string::npos);
}
