// What is shown of every shipped ruleset: no gap, no overlap, no rule that never fires, and the laws of engine/laws.h.
// `dueward rulesets check --budget 100000` works the laws through much further than these tests have time for.

#include <catch2/catch.hpp>

#include "engine/advice.h"
#include "engine/laws.h"
#include "engine/representative.h"
#include "engine/table_proof.h"
#include "support/shipped_rulesets.h"

using namespace engine;

TEST_CASE("the tables of every ruleset are shown to have no gap, no overlap and no dead rule", "[rulesets][proof]") {
  std::size_t shown = 0;
  for (const std::string& id : support::shipped_ruleset_ids()) {
    const auto ruleset = support::load_shipped(id);
    REQUIRE(ruleset);
    for (const TableProof& proof : prove_tables(*(*ruleset)->model)) {
      const TableView& table = (*ruleset)->model->tables()[proof.table];
      INFO(id << ", table " << table.decision << " " << proof.stopped_by);
      for (const TableFinding& finding : proof.findings) {
        FAIL_CHECK(text_of(finding.kind) << ": " << finding.when);
      }
      // A table that collects has no gap and no overlap; only whether each of its rules can fire may stay open.
      const bool collects = table.hit_policy.rfind("COLLECT", 0) == 0;
      CHECK((proof.stopped_by.empty() || collects));
      if (proof.stopped_by.empty()) ++shown;
    }
  }
  CHECK(shown > 150);
}

TEST_CASE("every ruleset keeps the laws", "[rulesets][proof][slow]") {
  std::size_t laws = 0, complete = 0;
  for (const std::string& id : support::shipped_ruleset_ids()) {
    const auto ruleset = support::load_shipped(id);
    REQUIRE(ruleset);
    for (const LawReport& law : prove_laws(*ruleset, 600)) {
      ++laws;
      if (law.complete) ++complete;
      for (const LawBreak& broken : law.breaks) {
        FAIL_CHECK(id << ": `" << law.law << "` for " << law.shape << ": " << broken.rule << " " << broken.answer << ", but "
                      << broken.worse_rule << " " << broken.worse_answer << "\n" << broken.record << "\n" << broken.worse_record);
      }
    }
  }
  CHECK(laws > 1000);
  CHECK(complete > laws / 2);
}

// Every third of about twenty thousand; `dueward rulesets check` tries them all. Then the same findings on the day of the
// examination: while their histology is awaited, what is settled holds whatever comes.
TEST_CASE("every made record gets one of the actions, and awaited histology never hides a sooner step", "[rulesets][proof][slow]") {
  std::size_t answered = 0, settled_before = 0;
  for (const std::string& id : support::shipped_ruleset_ids()) {
    const auto ruleset = support::load_shipped(id);
    REQUIRE(ruleset);
    Adviser adviser(*ruleset);
    std::size_t number = 0;
    each_representative_record(numeric_literals(*(*ruleset)->model), [&](const RepresentativeRecord& made) {
      if (++number % 3 != 0) return;
      const Advice advice = adviser.advise(made.record, representative_day());
      if (advice.state != AdviceState::settled && advice.state != AdviceState::outside && advice.state != AdviceState::depends) {
        FAIL_CHECK(id << ": " << text_of(advice.state) << " for " << in_plain_words(made.record) << "\n" << json_of(made.record));
      }
      ++answered;
      if (number % 60 != 0 || made.record.exam.lesions.size() > 2 || advice.state != AdviceState::settled) return;
      Record before = made.record;
      for (Lesion& lesion : before.exam.lesions) {
        if (lesion.histology) lesion.histology.reset();
      }
      const Advice early = adviser.advise(before, representative_day());
      if (early.state != AdviceState::settled) return;
      ++settled_before;
      INFO(id << ": " << json_of(made.record));
      CHECK(early.action == advice.action);
      CHECK(early.due == advice.due);
    });
  }
  CHECK(answered > 100'000);
  CHECK(settled_before > 100);
}
