// The moves of a recall, with the states that docs/ledger-format.md names.

#include "ledger/year/unit.h"
#include "support/verified.h"

namespace year {

using ledger::Move;
using support::value_of;

namespace {

/// What was tried and vetted before does not count on.
void begin_anew(Recall& recall) {
  recall.state = "opened";
  recall.attempts = 0;
  recall.vetted_on.clear();
}

}  // namespace

void Unit::move(const std::string& id, Move move, ledger::MoveDetails details) {
  Recall& recall = book.recalls.at(id);
  Expected expected;
  const bool is_decision = move == Move::vet || move == Move::redate || move == Move::close;
  if (is_decision) details.clinician = clinician;
  const auto moved = [&](const char* kind, const char* state) {
    expected.add(kind, id);
    recall.state = state;
  };
  recall.booked_for.reset();
  switch (move) {
    case Move::vet:
      expected.add("recall vetted", id);
      recall.vetted_on = engine::text_of(book.today);
      recall.state = details.result == ledger::Vetting::clinic ? "clinic" : "vetted";
      if (details.result != ledger::Vetting::stop) break;
      book.close(recall, expected);
      ++played["stopped when vetted"];
      break;
    case Move::redate:
      expected.add("recall redated", id);
      begin_anew(recall);
      recall.due = *details.from;
      recall.due_to = details.to.value_or(*details.from);
      recall.is_moved = true;
      recall.late_after = book.terms.late_after;
      break;
    case Move::defer:
      moved("recall not ready", "not ready");
      recall.attempts = 0;
      recall.not_ready.emplace_back(*details.from, *details.to);
      recall.late_after = book.terms.late_after;
      break;
    case Move::invite:
      ++recall.attempts;
      moved("recall invited", recall.attempts == 5 ? "no reply" : "invited");
      if (recall.attempts == 5) {
        details.owner = clinician;
        ++played["contact ladder used up"];
      }
      break;
    case Move::book:
      moved("recall booked", "booked");
      recall.booked_for = details.on;
      break;
    case Move::cancel:
      moved("recall cancelled", recall.vetted_on.empty() ? "opened" : "vetted");
      break;
    case Move::miss:
      moved("recall did not attend", "did not attend");
      break;
    case Move::attend:
      moved("recall attended", "attended");
      break;
    case Move::hand_over:
      moved("recall handed over", "handed over");
      ++book.flow.handed_over;
      break;
    case Move::take_back:
      expected.add("recall taken back", id);
      begin_anew(recall);
      ++book.flow.taken_back;
      break;
    case Move::close:
      book.close(recall, expected);
      break;
    case Move::reopen:
      book.reopen(recall, expected);
      break;
    default:
      FAIL("not a move of the office");
  }
  const auto state =
      value_of(ledger::move_recall(at.ledger, is_decision ? consultant() : office(), id, move, details));
  CHECK(ledger::text_of(state) == recall.state);
  absorb(std::string(ledger::text_of(move)) + " " + id, std::move(expected));
  ++played[std::string(ledger::text_of(move))];
}

void Unit::try_in_vain(const std::string& id, Move move, const std::string& code) {
  ledger::MoveDetails details;
  details.reason = "in vain";
  CHECK(support::code_of(ledger::move_recall(at.ledger, office(), id, move, details)) == code);
  absorb("in vain: " + std::string(ledger::text_of(move)) + " " + id, {});
  ++played["refused move"];
}

}  // namespace year
