// What a signature does to the recall of an examination.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "database/examinations.h"
#include "database/known_recalls.h"
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
  std::uint64_t signature = 0;  ///< The `advice signed` or `advice overridden` entry.
  nlohmann::json later_steps = nlohmann::json::array();  ///< `then` of the answer: what follows this step.
  nlohmann::json counted_from;                           ///< Of the answer: `what` and `date`, or null.
};

struct Carried {
  std::string recall;  ///< Empty when there is none.
  std::vector<std::string> notes;
};

/// A surveillance colonoscopy, a site check or a repeat examination: these have a recall.
bool opens_recall(engine::Action action);

/// Opens the recall, moves the one that is open, or closes it when the plan is to stop. One that stays due on
/// the same days for the same thing keeps its state: whoever was invited or booked is not asked anew. A later
/// examination of the person has overtaken the plan: then nothing is opened.
Carried carry_out(Transaction& transaction, const Author& author, const KnownExamination& examination,
                  const Plan& plan);

/// Opens the next step of the plan that `done` were steps of, when there is one: it was signed with the plan.
/// It follows `examination`, which has answered them, until advice for that examination is signed; when it is
/// signed already, or has an open recall, nothing is opened. Of several steps the one that is due first is.
/// Its interval counts from that examination, unless it names the event that the first step was counted from
/// (`resection`).
Carried open_next_step(Transaction& transaction, const Author& author, const std::vector<KnownRecall>& done,
                       const KnownExamination& examination);

}  // namespace ledger
