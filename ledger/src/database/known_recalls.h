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

  std::string id() const { return "R" + std::to_string(number); }
  bool ended() const { return state == RecallState::closed || state == RecallState::answered; }
};

/// `recall` as `R12`.
std::optional<KnownRecall> find_recall(Transaction& transaction, const std::string& recall);

/// Recalls that were neither answered nor closed, oldest first.
std::vector<KnownRecall> unended_recalls_of(Transaction& transaction, const std::string& person);

std::vector<NotReady> not_ready_of(Transaction& transaction, std::uint64_t recall);

/// How often the person was invited for this recall.
std::uint64_t invitations_of(Transaction& transaction, const KnownRecall& recall);

}  // namespace ledger
