#include <catch2/catch.hpp>

#include "ledger/recalls.h"

using ledger::Move;
using ledger::RecallState;

namespace {

constexpr int states = static_cast<int>(RecallState::closed) + 1;
constexpr int moves = static_cast<int>(Move::reopen) + 1;

}  // namespace

TEST_CASE("states and moves have texts that read back", "[recall]") {
  for (int i = 0; i < states; ++i) {
    CHECK(ledger::recall_state_of(ledger::text_of(static_cast<RecallState>(i))) ==
          static_cast<RecallState>(i));
  }
  for (int i = 0; i < moves; ++i)
    CHECK(ledger::move_of(ledger::text_of(static_cast<Move>(i))) == static_cast<Move>(i));
  CHECK_FALSE(ledger::recall_state_of("lost").has_value());
  CHECK_FALSE(ledger::move_of("forget").has_value());
}

TEST_CASE("a recall moves as its life goes", "[recall]") {
  struct Row {
    const char* because;
    const char *from, *move, *to;  // no `to`: not allowed
  };
  const auto row = GENERATE(values<Row>({
      {"a clinician vets a new recall", "opened", "vet", "vetted"},
      {"a vetted person is invited", "vetted", "invite", "invited"},
      {"an invited person is invited again", "invited", "invite", "invited"},
      {"an invited person books", "invited", "book", "booked"},
      {"a booked person attends", "booked", "attend", "attended"},
      {"a booked person does not attend", "booked", "miss", "did not attend"},
      {"who did not attend is invited again", "did not attend", "invite", "invited"},
      {"a cancelled booking is not a closed recall", "booked", "cancel", "vetted"},
      {"another date is vetted anew", "vetted", "redate", "opened"},
      {"who is not ready may say so once more", "not ready", "defer", "not ready"},
      {"the screening programme gives a person back", "handed over", "take back", "opened"},
      {"a closed recall can be reopened", "closed", "reopen", "opened"},
      {"an examination answers a recall that was handed over", "handed over", "answer", "answered"},
      {"no one attends without a booking", "invited", "attend", nullptr},
      {"a closed recall is not invited", "closed", "invite", nullptr},
      {"a closed recall is not closed again", "closed", "close", nullptr},
      {"an answered recall is not closed", "answered", "close", nullptr},
      {"what was not handed over is not taken back", "opened", "take back", nullptr},
      {"an open recall is not reopened", "opened", "reopen", nullptr},
  }));
  INFO(row.because);
  const auto state =
      ledger::after(ledger::recall_state_of(row.from).value(), ledger::move_of(row.move).value());
  CHECK((state ? std::string(ledger::text_of(*state)) : "") == (row.to ? row.to : ""));
}

TEST_CASE("every recall that has not ended can be closed and answered", "[recall]") {
  for (int i = 0; i < states; ++i) {
    const auto state = static_cast<RecallState>(i);
    const bool ended = state == RecallState::closed || state == RecallState::answered;
    INFO(ledger::text_of(state));
    CHECK(ledger::after(state, Move::close).has_value() == !ended);
    CHECK(ledger::after(state, Move::answer).has_value() == !ended);
  }
}

TEST_CASE("only closing and answering end a recall", "[recall]") {
  for (int i = 0; i < states; ++i) {
    for (int j = 0; j < moves; ++j) {
      const auto next = ledger::after(static_cast<RecallState>(i), static_cast<Move>(j));
      if (next == RecallState::closed) CHECK(static_cast<Move>(j) == Move::close);
      if (next == RecallState::answered) CHECK(static_cast<Move>(j) == Move::answer);
    }
  }
}

TEST_CASE("the allowed moves are those that lead somewhere, but for the ledger's own", "[recall]") {
  for (int i = 0; i < states; ++i) {
    const auto state = static_cast<RecallState>(i);
    std::vector<Move> expected;
    for (int j = 0; j < moves; ++j) {
      const auto move = static_cast<Move>(j);
      if (move != Move::answer && ledger::after(state, move)) expected.push_back(move);
    }
    CHECK(ledger::allowed_from(state) == expected);
  }
}
