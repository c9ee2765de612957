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
      {"a clinician wants to see the person first", "opened", "send to clinic", "clinic"},
      {"a clinician stops it when vetting", "opened", "stop", "closed"},
      {"after the clinic it is vetted again", "clinic", "vet", "vetted"},
      {"after the last attempt nobody has replied", "invited", "invite for the last time", "no reply"},
      {"who replies after all books", "no reply", "book", "booked"},
      {"a clinician closes what nobody replied to", "no reply", "close", "closed"},
      {"nobody is invited after the last attempt", "no reply", "invite", nullptr},
      {"nor without the clinic", "clinic", "invite", nullptr},
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

TEST_CASE("only closing, stopping and answering end a recall", "[recall]") {
  for (int i = 0; i < states; ++i) {
    for (int j = 0; j < moves; ++j) {
      const auto next = ledger::after(static_cast<RecallState>(i), static_cast<Move>(j));
      if (next == RecallState::closed)
        CHECK((static_cast<Move>(j) == Move::close || static_cast<Move>(j) == Move::stop));
      if (next == RecallState::answered) CHECK(static_cast<Move>(j) == Move::answer);
    }
  }
}

TEST_CASE("the allowed moves are those that can be asked for and lead somewhere", "[recall]") {
  for (int i = 0; i < states; ++i) {
    const auto state = static_cast<RecallState>(i);
    std::vector<Move> expected;
    for (int j = 0; j < moves; ++j) {
      const auto move = static_cast<Move>(j);
      const bool is_variant = move == Move::send_to_clinic || move == Move::stop || move == Move::invite_last;
      if (move != Move::answer && !is_variant && ledger::after(state, move)) expected.push_back(move);
    }
    CHECK(ledger::allowed_from(state) == expected);
  }
}
