// What a signature does to the recall of an examination.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "database/examinations.h"
#include "database/transaction.h"
#include "engine/advice.h"
#include "ledger/clock.h"

namespace ledger {

/// The next step as signed.
struct Plan {
  std::uint64_t advice = 0;  ///< The `advice given` that it follows or overrides.
  engine::Action action{};
  std::optional<engine::Window> due;
  std::string ruleset, rule, clinician;
  std::int64_t risk = 0;
};

struct Carried {
  std::string recall;  ///< Empty when there is none.
  std::vector<std::string> notes;
};

/// A surveillance colonoscopy, a site check or a repeat examination: these have a recall.
bool opens_recall(engine::Action action);

/// Opens the recall, moves the one that is open, or closes it when the plan is to stop. A later examination
/// of the person has overtaken the plan: then nothing is opened.
Carried carry_out(Transaction& transaction, const Author& author, const KnownExamination& examination,
                  const Plan& plan);

}  // namespace ledger
