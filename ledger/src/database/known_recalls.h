// Looks recalls up.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "database/transaction.h"
#include "engine/calendar.h"
#include "late_clock.h"
#include "ledger/recalls.h"

namespace ledger {

struct KnownRecall {
  std::uint64_t number = 0;
  std::string person, exam;
  RecallState state{};
  engine::Date due, due_to, late_on;
  engine::Date exam_date;  ///< Of the examination that the recall follows.
  std::int64_t attempts = 0;
  bool was_vetted = false;  ///< Since it was last opened.
  std::uint64_t advice = 0;
  std::optional<std::uint64_t> signature;  ///< The entry; none in the entries of a ledger's first version.
  std::string action, ruleset, clinician;
  nlohmann::json later_steps, counted_from;
  std::string answered_by;               ///< The examination; empty when it is not answered.
  std::optional<std::uint64_t> follows;  ///< Number of the recall of the step before, of a later step.

  std::string id() const { return "R" + std::to_string(number); }
  bool ended() const { return state == RecallState::closed || state == RecallState::answered; }
};

/// `recall` as `R12`.
std::optional<KnownRecall> find_recall(Transaction& transaction, const std::string& recall);

/// All of the person, oldest first.
std::vector<KnownRecall> recalls_of(Transaction& transaction, const std::string& person);
/// Those that were neither answered nor closed.
std::vector<KnownRecall> unended_recalls_of(Transaction& transaction, const std::string& person);

std::vector<NotReady> not_ready_of(Transaction& transaction, std::uint64_t recall);

}  // namespace ledger
