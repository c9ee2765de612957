#include "engine/advice/sample_advice.h"

namespace engine::testing {

namespace {

const char* const standing =
    "this supports and does not replace the judgement of the responsible clinician; local policy decides";

Advice of_ruleset(const std::string& id) {
  Advice advice;
  advice.id = id;
  advice.ruleset = "test-2026";
  advice.edition = "1.0.0";
  advice.ruleset_digest = "sha256:aa";
  advice.ruleset_title = "Test guideline";
  advice.ruleset_state = "current";
  advice.record_digest = "sha256:bb";
  advice.cautions = {standing};
  return advice;
}

}  // namespace

Advice settled_sample() {
  Advice advice = of_ruleset("case-1");
  advice.state = AdviceState::settled;
  advice.action = Action::site_check;
  advice.interval = Interval{{2}, {6}};
  advice.counted_from = "resection";
  advice.counted_from_date = Date{2026, 3, 10};
  advice.due = Window{{2026, 5, 10}, {2026, 9, 10}};
  advice.reasons = {
      {"20-05", "a 25 mm polyp was removed in pieces", "Test guideline 2026, figure 2", "secondary"},
      {"20-01", "two premalignant polyps, one of them 10 mm or larger", "Test guideline 2026, abstract",
       "guideline"}};
  advice.facts = {
      {"premalignant polyps", "2"}, {"largest", "25"}, {"advanced", "true"}, {"class", "\"high\""}};
  advice.then = {{Action::surveillance_colonoscopy, Interval{{36}, {36}}, "site check", "20-07",
                  "once the site is clear twice"}};
  advice.flags = {{"genetic assessment", "20-99", "ten adenomas or more"}};
  advice.assumed = {"patient.family_history: not stated, taken as none"};
  advice.cautions.insert(advice.cautions.begin(),
                         "row 20-07 is from memory: read it in the paper before use");
  return advice;
}

Advice awaiting_sample() {
  Advice advice = of_ruleset("case-2");
  advice.state = AdviceState::awaiting_pathology;
  advice.action = Action::await_pathology;
  advice.reasons = {
      {"pathology-gate", "the histology of 1 lesion is awaited, and decides", "this program", "engine"}};
  advice.possible = {{Action::surveillance_colonoscopy,
                      Interval{{36}, {36}},
                      Window{{2029, 3, 10}, {2029, 3, 10}},
                      "20-01",
                      {"exam.lesions[1].histology.type = tubular adenoma", "exam.lesions[1].size_mm >= 10"}},
                     {Action::no_surveillance, std::nullopt, std::nullopt, "20-02", {}}};
  advice.questions = {{"exam.lesions[1].histology", "the report is awaited: it decides"}};
  return advice;
}

Advice depends_sample() {
  Advice advice = of_ruleset("");
  advice.state = AdviceState::depends;
  advice.questions = {{"patient.birth_date", "not stated: the ruleset cannot answer without it"}};
  return advice;
}

Advice outside_sample() {
  Advice advice = of_ruleset("case-4");
  advice.state = AdviceState::outside;
  advice.action = Action::refer;
  advice.ask_instead = "test-hereditary";
  advice.ruleset_state = "superseded";
  advice.reasons = {{"20-00", "Lynch syndrome", "Test guideline 2026, scope", "memory"}};
  return advice;
}

Advice refused_sample() {
  Error error;
  error.code = "unknown_key";
  error.message = "a lesion has no `colour`";
  error.place.path = "exam.lesions[0].colour";
  error.help = "did you mean `size_mm`?";
  return refused("case-5 \"\u00e9\"\n", {error});
}

}  // namespace engine::testing
