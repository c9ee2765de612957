// The life of a recall after it was opened: what happens to it, and which moves are allowed from where.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

enum class RecallState : std::uint8_t {
  opened,
  vetted,
  invited,
  booked,
  did_not_attend,
  attended,
  not_ready,
  handed_over,
  answered,
  closed
};
std::string_view text_of(RecallState state);
std::optional<RecallState> recall_state_of(std::string_view text);

enum class Move : std::uint8_t {
  vet,
  redate,
  defer,  ///< Not ready from one day to another, with a reason: those days do not count.
  invite,
  book,
  cancel,
  miss,  ///< Did not attend.
  attend,
  hand_over,
  take_back,
  answer,  ///< By an examination; only the ledger itself makes this move.
  close,
  reopen
};
std::string_view text_of(Move move);
std::optional<Move> move_of(std::string_view text);

/// The state that `move` leads to, or nothing when it is not allowed from `state`.
std::optional<RecallState> after(RecallState state, Move move);
/// The moves that are allowed from `state`, in the order of the enumeration.
std::vector<Move> allowed_from(RecallState state);

/// What goes with a move. Which of these a move needs, docs/ledger-format.md says; others are kept when
/// given.
struct MoveDetails {
  std::string clinician;                 ///< vet, redate, close: who decides.
  std::string reason;                    ///< redate, defer, cancel, hand_over, close, reopen.
  std::string means;                     ///< invite: `letter`, `telephone`, ...
  std::optional<engine::Date> from, to;  ///< redate: the due window; defer: first and last day.
  std::optional<engine::Date> on;  ///< book: the appointment; close: the day of the decision; else the day it
                                   ///< happened. Left out: today.
};

/// Fails with `unknown_recall`, `move_not_allowed` (names the allowed ones), `detail_missing`, `bad_window`,
/// and as ledger.h says. Gives the state that the recall is in now.
engine::Result<RecallState> move_recall(Ledger& ledger, const Author& author, const std::string& recall,
                                        Move move, const MoveDetails& details);

/// A death or a move away closes nothing: the person's open recalls go on the list of recalls to close.
/// `person` as in `find_person` (patients.h). Fails with `unknown_person`, `date_missing` and as ledger.h
/// says.
engine::Result<engine::Done> report_death(Ledger& ledger, const Author& author, const std::string& person,
                                          const engine::Date& on);
engine::Result<engine::Done> report_move_away(Ledger& ledger, const Author& author, const std::string& person,
                                              const engine::Date& on);

}  // namespace ledger
