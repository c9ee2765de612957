// The moves a recall may make. One table: what is not in it is refused.

#include <array>

#include "ledger/recalls.h"

namespace ledger {

namespace {

constexpr std::array<std::string_view, 12> state_texts = {
    "opened",         "vetted",   "clinic",    "invited",     "no reply", "booked",
    "did not attend", "attended", "not ready", "handed over", "answered", "closed"};
static_assert(state_texts.size() == static_cast<std::size_t>(RecallState::closed) + 1);

constexpr std::array<std::string_view, 16> move_texts = {
    "vet",   "send to clinic", "stop", "redate", "defer",     "invite",    "invite for the last time",
    "book",  "cancel",         "miss", "attend", "hand over", "take back", "answer",
    "close", "reopen"};
static_assert(move_texts.size() == static_cast<std::size_t>(Move::reopen) + 1);

constexpr std::array<std::string_view, 3> vetting_texts = {"invite", "clinic", "stop"};

constexpr std::array<std::string_view, 5> ladder = {"letter", "letter", "telephone", "family doctor",
                                                    "final"};

struct Allowed {
  RecallState from;
  Move move;
  RecallState to;
};

using enum RecallState;

// A recall that was redated must be vetted anew. A booking that is cancelled or missed, and a person who is
// ready again, are invited again. After the last attempt nobody is invited: whoever answers books, is redated
// or deferred, and a clinician closes what is left. Nothing but `stop`, `close` and `answer` ends a recall.
constexpr Allowed table[] = {
    {opened, Move::vet, vetted},
    {opened, Move::send_to_clinic, clinic},
    {opened, Move::stop, closed},
    {opened, Move::redate, opened},
    {opened, Move::defer, not_ready},
    {opened, Move::invite, invited},
    {opened, Move::invite_last, no_reply},
    {opened, Move::book, booked},
    {opened, Move::hand_over, handed_over},
    {opened, Move::answer, answered},
    {opened, Move::close, closed},
    {vetted, Move::redate, opened},
    {vetted, Move::defer, not_ready},
    {vetted, Move::invite, invited},
    {vetted, Move::invite_last, no_reply},
    {vetted, Move::book, booked},
    {vetted, Move::hand_over, handed_over},
    {vetted, Move::answer, answered},
    {vetted, Move::close, closed},
    {clinic, Move::vet, vetted},
    {clinic, Move::send_to_clinic, clinic},
    {clinic, Move::stop, closed},
    {clinic, Move::redate, opened},
    {clinic, Move::defer, not_ready},
    {clinic, Move::book, booked},
    {clinic, Move::hand_over, handed_over},
    {clinic, Move::answer, answered},
    {clinic, Move::close, closed},
    {invited, Move::redate, opened},
    {invited, Move::defer, not_ready},
    {invited, Move::invite, invited},
    {invited, Move::invite_last, no_reply},
    {invited, Move::book, booked},
    {invited, Move::hand_over, handed_over},
    {invited, Move::answer, answered},
    {invited, Move::close, closed},
    {no_reply, Move::redate, opened},
    {no_reply, Move::defer, not_ready},
    {no_reply, Move::book, booked},
    {no_reply, Move::hand_over, handed_over},
    {no_reply, Move::answer, answered},
    {no_reply, Move::close, closed},
    {booked, Move::redate, opened},
    {booked, Move::defer, not_ready},
    {booked, Move::book, booked},
    {booked, Move::cancel, vetted},
    {booked, Move::miss, did_not_attend},
    {booked, Move::attend, attended},
    {booked, Move::answer, answered},
    {booked, Move::close, closed},
    {did_not_attend, Move::redate, opened},
    {did_not_attend, Move::defer, not_ready},
    {did_not_attend, Move::invite, invited},
    {did_not_attend, Move::invite_last, no_reply},
    {did_not_attend, Move::book, booked},
    {did_not_attend, Move::hand_over, handed_over},
    {did_not_attend, Move::answer, answered},
    {did_not_attend, Move::close, closed},
    {attended, Move::redate, opened},
    {attended, Move::invite, invited},
    {attended, Move::invite_last, no_reply},
    {attended, Move::answer, answered},
    {attended, Move::close, closed},
    {not_ready, Move::vet, vetted},
    {not_ready, Move::send_to_clinic, clinic},
    {not_ready, Move::stop, closed},
    {not_ready, Move::redate, opened},
    {not_ready, Move::defer, not_ready},
    {not_ready, Move::invite, invited},
    {not_ready, Move::invite_last, no_reply},
    {not_ready, Move::book, booked},
    {not_ready, Move::hand_over, handed_over},
    {not_ready, Move::answer, answered},
    {not_ready, Move::close, closed},
    {handed_over, Move::take_back, opened},
    {handed_over, Move::answer, answered},
    {handed_over, Move::close, closed},
    {closed, Move::reopen, opened},
    {answered, Move::reopen, opened},
};

template <class Enumerator, std::size_t size>
std::optional<Enumerator> find(const std::array<std::string_view, size>& texts, std::string_view text) {
  for (std::size_t i = 0; i < size; ++i) {
    if (texts[i] == text) return static_cast<Enumerator>(i);
  }
  return std::nullopt;
}

}  // namespace

std::string_view text_of(RecallState state) {
  return state_texts.at(static_cast<std::size_t>(state));
}

std::optional<RecallState> recall_state_of(std::string_view text) {
  return find<RecallState>(state_texts, text);
}

std::string_view text_of(Move move) {
  return move_texts.at(static_cast<std::size_t>(move));
}

std::optional<Move> move_of(std::string_view text) {
  return find<Move>(move_texts, text);
}

std::optional<RecallState> after(RecallState state, Move move) {
  for (const Allowed& allowed : table) {
    if (allowed.from == state && allowed.move == move) return allowed.to;
  }
  return std::nullopt;
}

std::vector<Move> allowed_from(RecallState state) {
  const auto can_be_asked_for = [](Move move) {
    return move != Move::answer && move != Move::send_to_clinic && move != Move::stop &&
           move != Move::invite_last;
  };
  std::vector<Move> moves;
  for (const Allowed& allowed : table) {
    if (allowed.from == state && can_be_asked_for(allowed.move)) moves.push_back(allowed.move);
  }
  return moves;
}

std::string_view text_of(Vetting result) {
  return vetting_texts.at(static_cast<std::size_t>(result));
}

std::optional<Vetting> vetting_of(std::string_view text) {
  return find<Vetting>(vetting_texts, text);
}

std::span<const std::string_view> contact_ladder() {
  return ladder;
}

}  // namespace ledger
