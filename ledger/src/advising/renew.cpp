// Advice for examinations that were answered before, by the rulesets that are in force now.

#include "advising/advise.h"
#include "database/store.h"
#include "ledger/revet.h"
#include "reception/input.h"

namespace ledger {

using engine::Done;
using engine::Result;

namespace {

Renewed renew(Transaction& transaction, const Author& author, Advisers& advisers, const std::string& exam) {
  Renewed renewed;
  renewed.exam = exam;
  const auto examination = find_examination(transaction, exam);
  if (!examination) {
    renewed.errors = {
        {"unknown_exam", "no examination `" + exam + "` is on the ledger", {}, "record it first"}};
    return renewed;
  }
  const Given given = give_advice_if_answered_otherwise(transaction, author, advisers, *examination,
                                                        "the rulesets in force were asked again");
  if (given.entry == 0) return renewed;
  const engine::Advice& answer = given.answers[given.choice.chosen];
  renewed.advice = given.entry;
  renewed.state = engine::text_of(answer.state);
  if (answer.action) renewed.action = engine::text_of(*answer.action);
  renewed.outcome = examination->outcome;
  return renewed;
}

}  // namespace

Result<std::vector<Renewed>> renew_advice(Ledger& ledger, const Author& author, const Protocol& rulesets,
                                          const std::vector<std::string>& exams) {
  if (rulesets.empty()) return no_ruleset();
  if (auto installed = install(ledger, author, rulesets); !installed) return installed.errors();
  Advisers advisers(rulesets);
  std::vector<Renewed> done;
  for (const std::string& exam : exams) {
    const auto written = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
      done.push_back(renew(transaction, author, advisers, exam));
      return Done{};
    });
    if (!written) return written.errors();
  }
  return done;
}

}  // namespace ledger
