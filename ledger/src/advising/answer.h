// An examination answers the open recalls that it was for, and opens the next step of their plans.

#pragma once

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

}  // namespace ledger
