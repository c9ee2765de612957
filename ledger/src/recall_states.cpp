// The moves a recall may make. One table: what is not in it is refused.

#include <array>

#include "ledger/recalls.h"

namespace ledger {

namespace {

constexpr std::array<std::string_view, 10> state_texts = {
    "opened",   "vetted",    "invited",     "booked",   "did not attend",
    "attended", "not ready", "handed over", "answered", "closed"};
static_assert(state_texts.size() == static_cast<std::size_t>(RecallState::closed) + 1);

constexpr std::array<std::string_view, 13> move_texts = {
    "vet",    "redate",    "defer",     "invite", "book",  "cancel", "miss",
    "attend", "hand over", "take back", "answer", "close", "reopen"};
static_assert(move_texts.size() == static_cast<std::size_t>(Move::reopen) + 1);

struct Allowed {
  RecallState from;
  Move move;
  RecallState to;
};

using enum RecallState;

// A recall that was redated must be vetted anew. A booking that is cancelled or missed, and a person who is
// ready again, are invited again; nothing but `close` and `answer` ends a recall.
constexpr Allowed table[] = {
    {opened, Move::vet, vetted},
    {opened, Move::redate, opened},
    {opened, Move::defer, not_ready},
    {opened, Move::invite, invited},
    {opened, Move::book, booked},
    {opened, Move::hand_over, handed_over},
    {opened, Move::answer, answered},
    {opened, Move::close, closed},
    {vetted, Move::redate, opened},
    {vetted, Move::defer, not_ready},
    {vetted, Move::invite, invited},
    {vetted, Move::book, booked},
    {vetted, Move::hand_over, handed_over},
    {vetted, Move::answer, answered},
    {vetted, Move::close, closed},
    {invited, Move::redate, opened},
    {invited, Move::defer, not_ready},
    {invited, Move::invite, invited},
    {invited, Move::book, booked},
    {invited, Move::hand_over, handed_over},
    {invited, Move::answer, answered},
    {invited, Move::close, closed},
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
    {did_not_attend, Move::book, booked},
    {did_not_attend, Move::hand_over, handed_over},
    {did_not_attend, Move::answer, answered},
    {did_not_attend, Move::close, closed},
    {attended, Move::redate, opened},
    {attended, Move::invite, invited},
    {attended, Move::answer, answered},
    {attended, Move::close, closed},
    {not_ready, Move::vet, vetted},
    {not_ready, Move::redate, opened},
    {not_ready, Move::defer, not_ready},
    {not_ready, Move::invite, invited},
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
  std::vector<Move> moves;
  for (const Allowed& allowed : table) {
    if (allowed.from == state && allowed.move != Move::answer) moves.push_back(allowed.move);
  }
  return moves;
}

}  // namespace ledger
