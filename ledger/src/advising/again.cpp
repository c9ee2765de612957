#include "advising/advise.h"
#include "database/view.h"
#include "ledger/advising.h"
#include "reception/input.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

Result<AdvisedAgain> again(Transaction& transaction, const Author& author, Advisers& advisers,
                           const std::string& exam) {
  const auto known = find_examination(transaction, exam);
  if (!known)
    return Error{"unknown_exam",
                 "no examination `" + exam + "` is on the ledger",
                 {},
                 "`patient` lists the examinations of a person"};
  if (auto installed = install(transaction, author, advisers.protocol()); !installed)
    return installed.errors();
  AdvisedAgain advised{known->exam, known->person, 0, {}, 0, {}};
  auto given = give_outdated_advice(transaction, author, advisers, *known, "the rules in force have changed");
  if (!given) {
    advised.notes.push_back("the advice that stands is by the rules in force");
    return advised;
  }
  advised.advice = given->entry;
  advised.answers = std::move(given->answers);
  advised.chosen = given->choice.chosen;
  if (!known->outcome.empty())
    advised.notes.push_back("the advice was " + known->outcome + "; the new one must be signed");
  return advised;
}

}  // namespace

Result<AdvisedAgain> advise_again(Ledger& ledger, const Author& author, const Protocol& protocol,
                                  const std::string& exam) {
  if (protocol.empty()) return no_ruleset();
  Advisers advisers(protocol);
  AdvisedAgain advised;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    auto made = again(transaction, author, advisers, exam);
    if (!made) return made.errors();
    advised = std::move(*made);
    return Done{};
  });
  if (!done) return done.errors();
  return advised;
}

Result<std::vector<std::string>> answered_by_other_rulesets(const Ledger& ledger, const Protocol& protocol) {
  const std::vector<std::string> digests = digests_of(protocol);
  return viewed<std::vector<std::string>>(ledger, [&](Connection& connection, auto& exams) {
    connection.each(
        "SELECT x.exam, json_extract(e.body, '$.answers') FROM examinations AS x JOIN entries AS e"
        " ON e.sequence = x.advice WHERE x.outcome = '' ORDER BY x.date, x.exam",
        [&](const Row& row) {
          if (!are_answers_of(json::parse(row.text(1)), digests)) exams.push_back(row.text(0));
        });
  });
}

}  // namespace ledger
