// An examination answers the open recalls that it was for, and opens the next step of their plans.

#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "database/examinations.h"
#include "database/known_recalls.h"
#include "database/transaction.h"
#include "ledger/clock.h"

namespace ledger {

/// Answers the person's recalls that follow an examination of an earlier day, whatever the examination was
/// done for and wherever. Gives a note for each.
std::vector<std::string> answer_recalls(Transaction& transaction, const Author& author,
                                        const KnownExamination& examination);

/// What is undone and done when examinations come to a person, go from them, or change their day.
struct Rematched {
  std::vector<std::string> notes;
  std::set<std::uint64_t> reopened;  ///< Numbers of recalls.
};

/// Closes the person's recalls that are steps of another person's plan, in the name of the clinician who told
/// the two apart. The examination that such a step followed has advice of its own. Gives a note for each.
std::vector<std::string> close_steps_of_others(Transaction& transaction, const Author& author,
                                               const std::string& person, const std::string& clinician);

/// Opens recalls of the person again that are answered by an examination that cannot answer them: another
/// person's, or one that is not of a later day than the one that the recall follows. A recall stays as it is
/// when another one is open for its examination, or when it is a step of another person's plan. Looks only at
/// those that are `concerned`.
Rematched reopen_unanswered(Transaction& transaction, const Author& author, const std::string& person,
                            const std::function<bool(const KnownRecall&)>& concerned);

/// That the examination came after the one that the recall follows was known before, so that the recall is
/// open for another reason: it is not answered once more.
using KnownBefore = std::function<bool(const KnownRecall&, const KnownExamination&)>;

/// Answers the person's recalls by the examinations that they have by now: the oldest first. Recalls that
/// were reopened or opened in the meantime have no `known_before`.
void answer_newly(Transaction& transaction, const Author& author, const std::string& person,
                  const KnownBefore& known_before, Rematched& rematched);

}  // namespace ledger
