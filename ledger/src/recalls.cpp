#include "ledger/recalls.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "database/examinations.h"
#include "database/known_recalls.h"
#include "database/protocols.h"
#include "database/store.h"
#include "late_clock.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

/// What a move cannot do without.
struct Needs {
  bool clinician = false, reason = false, from = false, to = false, on = false;
};

struct Described {
  Move move;
  Kind kind;
  Needs needs;
};

constexpr Described moves[] = {
    {Move::vet, Kind::recall_vetted, {.clinician = true}},
    {Move::send_to_clinic, Kind::recall_vetted, {.clinician = true, .reason = true}},
    {Move::stop, Kind::recall_vetted, {.clinician = true, .reason = true}},
    {Move::redate, Kind::recall_redated, {.clinician = true, .reason = true, .from = true}},
    {Move::defer, Kind::recall_not_ready, {.reason = true, .from = true, .to = true}},
    {Move::invite, Kind::recall_invited, {}},
    {Move::invite_last, Kind::recall_invited, {}},
    {Move::book, Kind::recall_booked, {.on = true}},
    {Move::cancel, Kind::recall_cancelled, {.reason = true}},
    {Move::miss, Kind::recall_did_not_attend, {}},
    {Move::attend, Kind::recall_attended, {}},
    {Move::hand_over, Kind::recall_handed_over, {.reason = true}},
    {Move::take_back, Kind::recall_taken_back, {}},
    {Move::answer, Kind::recall_answered, {}},
    {Move::close, Kind::recall_closed, {.clinician = true, .reason = true}},
    {Move::reopen, Kind::recall_reopened, {.reason = true}},
};
static_assert(std::size(moves) == static_cast<std::size_t>(Move::reopen) + 1);

const Described& described(Move move) {
  return moves[static_cast<std::size_t>(move)];
}

/// Vetting is one command with three results.
Move chosen_of(Move move, const MoveDetails& details) {
  if (move != Move::vet || details.result == Vetting::invite) return move;
  return details.result == Vetting::clinic ? Move::send_to_clinic : Move::stop;
}

engine::Errors missing(Move move, Move asked_for, const MoveDetails& details) {
  engine::Errors errors;
  const auto need = [&](bool needed, bool given, const char* name) {
    if (!needed || given) return;
    errors.push_back(
        {"detail_missing", "`" + std::string(text_of(asked_for)) + "` needs the " + name, {}, ""});
  };
  const Needs& needs = described(move).needs;
  need(needs.clinician, !details.clinician.empty(), "clinician who decides");
  need(needs.reason, !details.reason.empty(), "reason");
  need(needs.from, details.from.has_value(), "first day");
  need(needs.to, details.to.has_value(), "last day");
  need(needs.on, details.on.has_value(), "day of the appointment");
  return errors;
}

Error not_allowed(const KnownRecall& recall, Move move) {
  std::string help = "allowed are";
  for (const Move other : allowed_from(recall.state)) {
    help += (help.ends_with("are") ? " `" : ", `") + std::string(text_of(other)) + "`";
  }
  return {"move_not_allowed",
          "recall " + recall.id() + " is `" + std::string(text_of(recall.state)) + "`: `" +
              std::string(text_of(move)) + "` is not allowed",
          {},
          help};
}

/// The next attempt, or why there is none.
Result<Move> next_attempt(const KnownRecall& recall, const MoveDetails& details) {
  const auto ladder = contact_ladder();
  const auto made = static_cast<std::size_t>(recall.attempts);
  if (made >= ladder.size()) {
    return Error{"ladder_used_up",
                 "recall " + recall.id() + " has had its " + std::to_string(ladder.size()) + " attempts",
                 {},
                 "`book`, `redate` or `defer` it when the person answers; else a clinician closes it"};
  }
  const bool is_last = made + 1 == ladder.size();
  if (details.means == ladder.back() && !is_last) {
    return Error{"ladder_not_climbed",
                 "attempt " + std::to_string(made + 1) + " is not the last one",
                 {},
                 "the next is `" + std::string(ladder[made]) + "`"};
  }
  if (is_last && details.owner.empty()) {
    return Error{"detail_missing",
                 "the last `invite` needs the owner: who decides when nobody answers",
                 {},
                 "the recall then waits as `no reply` under that name"};
  }
  return is_last ? Move::invite_last : Move::invite;
}

void add_attempt(json& body, const KnownRecall& recall, Move move, const MoveDetails& details) {
  const auto ladder = contact_ladder();
  body["attempt"] = recall.attempts + 1;
  body["means"] =
      details.means.empty() ? std::string(ladder[static_cast<std::size_t>(recall.attempts)]) : details.means;
  body["last"] = move == Move::invite_last;
  if (!details.owner.empty()) body["owner"] = details.owner;
}

void add_dates(json& body, Transaction& transaction, const Author& author, const KnownRecall& recall,
               Move move, const MoveDetails& details) {
  const std::int64_t late_after = terms_on(transaction.connection(), author.clock.today()).late_after_days;
  std::vector<NotReady> periods = not_ready_of(transaction, recall.number);
  if (move == Move::redate) {
    const engine::Date due = *details.from;
    body["due"] = engine::text_of(due);
    body["due_to"] = engine::text_of(details.to.value_or(due));
    body["late_on"] = engine::text_of(late_date(due, periods, late_after));
    body["interval_days"] = std::max<std::int64_t>(1, days_between(recall.exam_date, due));
  }
  if (move == Move::defer) {
    periods.push_back({*details.from, *details.to});
    body["from"] = engine::text_of(*details.from);
    body["to"] = engine::text_of(*details.to);
    body["late_on"] = engine::text_of(late_date(recall.due, periods, late_after));
  }
}

json body_of(Transaction& transaction, const Author& author, const KnownRecall& recall, Move move,
             RecallState state, const MoveDetails& details) {
  json body = {{"person", recall.person},
               {"recall", recall.id()},
               {"state", std::string(text_of(state))},
               {"on", engine::text_of(details.on.value_or(author.clock.today()))}};
  if (!details.clinician.empty()) body["clinician"] = details.clinician;
  if (!details.reason.empty()) body["reason"] = details.reason;
  if (described(move).kind == Kind::recall_vetted) body["result"] = std::string(text_of(details.result));
  if (described(move).kind == Kind::recall_invited) {
    add_attempt(body, recall, move, details);
  } else if (!details.means.empty()) {
    body["means"] = details.means;
  }
  if (move == Move::redate || move == Move::defer)
    add_dates(body, transaction, author, recall, move, details);
  return body;
}

/// A recall that was stopped when it was vetted was closed by that decision: both are told.
void close_stopped(Transaction& transaction, const Author& author, const KnownRecall& recall,
                   const json& vetted) {
  json body = vetted;
  body.erase("result");
  transaction.append(author, Kind::recall_closed, "recall:" + recall.id(), body);
}

/// What was booked without having been vetted is not vetted when the booking is cancelled.
RecallState state_after(const KnownRecall& recall, Move move) {
  if (move == Move::cancel && !recall.was_vetted) return RecallState::opened;
  return after(recall.state, move).value();
}

/// A recall that was ended by another decision about its examination is not that decision's to take back.
std::optional<Error> replaced(Transaction& transaction, const KnownRecall& recall) {
  const auto examination = find_examination(transaction, recall.exam);
  if (!recall.signature || !examination || examination->outcome.empty()) return std::nullopt;
  if (signature_of(transaction, recall.exam) == *recall.signature) return std::nullopt;
  return Error{"plan_replaced",
               "another next step was signed for examination `" + recall.exam + "` since recall " +
                   recall.id() + " was opened",
               {},
               "decide on the person's last examination with `advice override`"};
}

/// An examination has one open recall.
std::optional<Error> open_beside(Transaction& transaction, const KnownRecall& recall) {
  for (const KnownRecall& other : unended_recalls_of(transaction, recall.person)) {
    if (other.exam != recall.exam) continue;
    return Error{"another_recall",
                 "recall " + other.id() + " is `" + std::string(text_of(other.state)) +
                     "` for examination `" + recall.exam + "`: `reopen` of " + recall.id() +
                     " would ask the person twice",
                 {},
                 "`redate` " + other.id() + " when the days are to be others"};
  }
  return std::nullopt;
}

Result<RecallState> make(Transaction& transaction, const Author& author, const KnownRecall& recall, Move move,
                         Move asked_for, const MoveDetails& details) {
  if (!after(recall.state, move) || move == Move::answer) return not_allowed(recall, asked_for);
  if (move == Move::invite) {
    const auto attempt = next_attempt(recall, details);
    if (!attempt) return attempt.errors();
    move = *attempt;
  }
  if (move == Move::reopen) {
    if (auto other = open_beside(transaction, recall)) return *other;
    if (auto other = replaced(transaction, recall)) return *other;
  }
  const RecallState state = state_after(recall, move);
  const json body = body_of(transaction, author, recall, move, state, details);
  transaction.append(author, described(move).kind, "recall:" + recall.id(), body);
  if (move == Move::stop) close_stopped(transaction, author, recall, body);
  return state;
}

}  // namespace

Result<RecallState> move_recall(Ledger& ledger, const Author& author, const std::string& recall,
                                Move asked_for, const MoveDetails& details) {
  const Move move = chosen_of(asked_for, details);
  if (auto errors = missing(move, asked_for, details); !errors.empty()) return errors;
  if (details.from && details.to && *details.to < *details.from) {
    return Error{"bad_window", "the last day is before the first", {}, "give the earlier date first"};
  }
  RecallState state{};
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto known = find_recall(transaction, recall);
    if (!known) {
      return Error{
          "unknown_recall", "there is no recall `" + recall + "`", {}, "the lists name recalls, as in `R12`"};
    }
    const auto made = make(transaction, author, *known, move, asked_for, details);
    if (!made) return made.errors();
    state = *made;
    return Done{};
  });
  if (!done) return done.errors();
  return state;
}

}  // namespace ledger
