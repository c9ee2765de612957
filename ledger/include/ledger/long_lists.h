// The lists of recalls that may be as long as a unit has patients (lists.h): how many stand on one, and its
// lines one after the other.

#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"

namespace ledger {

struct RecallSelection;

/// A list read line by line: however long it is, one line of it is held. As of one moment from when it was
/// made until it is gone (ledger.h, Moment); its ledger must outlive it.
class RecallLines {
 public:
  RecallLines(RecallLines&&) noexcept;
  RecallLines& operator=(RecallLines&&) = delete;
  ~RecallLines();

  /// None after the last. Fails as ledger.h says.
  engine::Result<std::optional<RecallLine>> next();

  /// For the functions below.
  static engine::Result<RecallLines> open(const Ledger& ledger, const RecallSelection& selection,
                                          const engine::Date& today);

 private:
  struct State;
  explicit RecallLines(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

/// All lines of due(), overdue() and to_vet() in their order. Fail as ledger.h says.
engine::Result<RecallLines> lines_due(const Ledger& ledger, const DueRange& range, const engine::Date& today);
engine::Result<RecallLines> lines_overdue(const Ledger& ledger, const engine::Date& today);
engine::Result<RecallLines> lines_to_vet(const Ledger& ledger, const std::optional<engine::Date>& to,
                                         const engine::Date& today);

/// How many they are. Fail as ledger.h says.
engine::Result<std::uint64_t> count_due(const Ledger& ledger, const DueRange& range,
                                        const engine::Date& today);
engine::Result<std::uint64_t> count_overdue(const Ledger& ledger, const engine::Date& today);
engine::Result<std::uint64_t> count_to_vet(const Ledger& ledger, const std::optional<engine::Date>& to,
                                           const engine::Date& today);

}  // namespace ledger
