// Gives advice for an examination on the ledger: puts its record together, asks every ruleset in force, keeps
// the answers.

#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "database/examinations.h"
#include "database/transaction.h"
#include "engine/advice.h"
#include "ledger/choice.h"
#include "ledger/clock.h"
#include "ledger/rulesets.h"

namespace ledger {

/// The rulesets in force, each with memory that is reused from record to record.
class Advisers {
 public:
  explicit Advisers(const Protocol& protocol);
  const Protocol& protocol() const { return protocol_; }
  std::vector<engine::Advice> advise(const engine::Record& record, const engine::Date& today,
                                     const std::string& exam);

 private:
  const Protocol& protocol_;
  std::vector<std::unique_ptr<engine::Adviser>> advisers_;
};

/// Appends a `ruleset installed` entry for each ruleset that the ledger does not hold yet.
engine::Result<engine::Done> install(Transaction& transaction, const Author& author,
                                     const Protocol& protocol);

/// The record of an examination as it stands: as last given, with histology that came as results, and with
/// the background that it told before and leaves out now.
nlohmann::json record_of(Transaction& transaction, const KnownExamination& examination);

struct Given {
  std::uint64_t entry = 0;  ///< Number of the `advice given` entry.
  std::vector<engine::Advice> answers;
  Choice choice;
};

/// Advises on examination `exam` and supersedes the advice that stood. `because` says what changed.
Given give_advice(Transaction& transaction, const Author& author, Advisers& advisers, const std::string& exam,
                  const std::string& because);

/// The same, unless nothing has changed that a rule sees: then entry 0 is given, and the advice, with its
/// signature, stands. A telephone number, or a complication that is told a week later, takes no signature
/// back.
Given give_advice_if_changed(Transaction& transaction, const Author& author, Advisers& advisers,
                             const std::string& exam, const std::string& because);

/// Advises anew on the person's later examinations, whose earlier ones have just changed.
void give_later_advice(Transaction& transaction, const Author& author, Advisers& advisers,
                       const KnownExamination& changed, const std::string& because);

/// Advises anew on those of the person's examinations whose record has changed: examinations, or another
/// person's examinations, came or went. Gives their ids.
std::vector<std::string> give_changed_advice(Transaction& transaction, const Author& author,
                                             Advisers& advisers, const std::string& person,
                                             const std::string& because);

/// Advises anew on those of the person's examinations whose signed next step nobody would be reminded of, or
/// is not what the open recall says: because a later examination went from the person, or a recall that
/// follows older advice was opened again. Gives their ids.
std::vector<std::string> give_unfollowed_advice(Transaction& transaction, const Author& author,
                                                Advisers& advisers, const std::string& person,
                                                const std::string& because);

/// The answers of an `advice given` entry are by the rulesets with these digests, in their order.
bool are_answers_of(const nlohmann::json& answers, const std::vector<std::string>& digests);
std::vector<std::string> digests_of(const Protocol& protocol);

/// Advises anew when the record or the rulesets are not those of the advice that stands. Gives nothing when
/// they are.
std::optional<Given> give_outdated_advice(Transaction& transaction, const Author& author, Advisers& advisers,
                                          const KnownExamination& examination, const std::string& because);

}  // namespace ledger
