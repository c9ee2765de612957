// What is shown of every shipped ruleset: no gap, no overlap, no rule that never fires, and the laws of engine/laws.h.
// `dueward rulesets check --budget 100000` works the laws through much further than these tests have time for.

#include <catch2/catch.hpp>

#include "engine/laws.h"
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
