// The life of a recall after it was opened: what happens to it, and which moves are allowed from where.

#pragma once

#include <cstdint>
#include <optional>
#include <span>
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
  clinic,  ///< The person is seen in clinic before it is decided.
  invited,
  no_reply,  ///< The last attempt was made and nobody has answered. Open: its owner decides what is next.
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
  vet,             ///< With the result that the person is invited.
  send_to_clinic,  ///< Vetted, with the result that the person is seen in clinic first.
  stop,            ///< Vetted, with the result that it ends.
  redate,
  defer,  ///< Not ready from one day to another, with a reason: those days do not count.
  invite,
  invite_last,  ///< The last attempt of the contact ladder.
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
/// The moves that a person can ask for from `state`, in the order of the enumeration. `vet` stands for its
/// three results and `invite` for all attempts.
std::vector<Move> allowed_from(RecallState state);

/// What vetting decides.
enum class Vetting : std::uint8_t { invite, clinic, stop };
std::string_view text_of(Vetting result);
std::optional<Vetting> vetting_of(std::string_view text);

/// How a person is contacted, one attempt after the other: letter, letter, telephone, family doctor, final.
/// After the last one the recall is in state `no reply`. Attempts are counted since the recall was last
/// opened, redated or deferred. Source: common practice.
std::span<const std::string_view> contact_ladder();

/// What goes with a move. Which of these a move needs, docs/ledger-format.md says; others are kept when
/// given.
struct MoveDetails {
  std::string clinician;  ///< vet, redate, close: who decides.
  std::string reason;     ///< redate, defer, cancel, hand_over, close, reopen, vet: stop, clinic.
  std::string means;      ///< invite: `letter`, `telephone`, ... Left out: the ladder's.
  std::optional<engine::Date> from, to;  ///< redate: the due window; defer: first and last day.
  std::optional<engine::Date> on;  ///< book: the appointment; close: the day of the decision; else the day it
                                   ///< happened. Left out: today.
  Vetting result = Vetting::invite;  ///< vet.
  std::string owner = {};            ///< invite, the last attempt: who decides when nobody answers.
};

/// Fails with `unknown_recall`, `move_not_allowed` (names the allowed ones), `detail_missing`, `bad_window`,
/// `ladder_used_up` (the last attempt was made), `ladder_not_climbed` (`final` before its turn),
/// `another_recall` or `plan_replaced` (reopen: its examination has another one, or another decision, by now),
/// and as ledger.h says. Gives the state that the recall is in now.
engine::Result<RecallState> move_recall(Ledger& ledger, const Author& author, const std::string& recall,
                                        Move move, const MoveDetails& details);

}  // namespace ledger
