#include "ledger/recalls.h"

#include <algorithm>
#include <utility>

#include "database/known_recalls.h"
#include "database/people.h"
#include "database/store.h"
#include "late_clock.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

Kind kind_of(Move move) {
  switch (move) {
    case Move::vet:
      return Kind::recall_vetted;
    case Move::redate:
      return Kind::recall_redated;
    case Move::defer:
      return Kind::recall_not_ready;
    case Move::invite:
      return Kind::recall_invited;
    case Move::book:
      return Kind::recall_booked;
    case Move::cancel:
      return Kind::recall_cancelled;
    case Move::miss:
      return Kind::recall_did_not_attend;
    case Move::attend:
      return Kind::recall_attended;
    case Move::hand_over:
      return Kind::recall_handed_over;
    case Move::take_back:
      return Kind::recall_taken_back;
    case Move::answer:
      return Kind::recall_answered;
    case Move::close:
      return Kind::recall_closed;
    case Move::reopen:
      return Kind::recall_reopened;
  }
  return Kind::recall_reopened;
}

/// What a move cannot do without.
struct Needs {
  bool clinician = false, reason = false, means = false, from = false, to = false, on = false;
};

Needs needs_of(Move move) {
  switch (move) {
    case Move::vet:
      return {.clinician = true};
    case Move::redate:
      return {.clinician = true, .reason = true, .from = true};
    case Move::defer:
      return {.reason = true, .from = true, .to = true};
    case Move::invite:
      return {.means = true};
    case Move::book:
      return {.on = true};
    case Move::cancel:
    case Move::hand_over:
    case Move::reopen:
      return {.reason = true};
    case Move::close:
      return {.clinician = true, .reason = true};
    default:
      return {};
  }
}

engine::Errors missing(Move move, const MoveDetails& details) {
  engine::Errors errors;
  const auto need = [&](bool needed, bool given, const char* name) {
    if (!needed || given) return;
    errors.push_back({"detail_missing", "`" + std::string(text_of(move)) + "` needs the " + name, {}, ""});
  };
  const Needs needs = needs_of(move);
  need(needs.clinician, !details.clinician.empty(), "clinician who decides");
  need(needs.reason, !details.reason.empty(), "reason");
  need(needs.means, !details.means.empty(), "means: letter, telephone, ...");
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

void add_dates(json& body, Transaction& transaction, const KnownRecall& recall, Move move,
               const MoveDetails& details) {
  std::vector<NotReady> periods = not_ready_of(transaction, recall.number);
  if (move == Move::redate) {
    const engine::Date due = *details.from;
    body["due"] = engine::text_of(due);
    body["due_to"] = engine::text_of(details.to.value_or(due));
    body["late_on"] = engine::text_of(late_date(due, periods));
    body["interval_days"] = std::max<std::int64_t>(1, days_between(recall.exam_date, due));
  }
  if (move == Move::defer) {
    periods.push_back({*details.from, *details.to});
    body["from"] = engine::text_of(*details.from);
    body["to"] = engine::text_of(*details.to);
    body["late_on"] = engine::text_of(late_date(recall.due, periods));
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
  if (!details.means.empty()) body["means"] = details.means;
  if (move == Move::invite) body["attempt"] = invitations_of(transaction, recall) + 1;
  add_dates(body, transaction, recall, move, details);
  return body;
}

Result<Done> report(Ledger& ledger, const Author& author, Kind kind, const std::string& text,
                    const engine::Date& on) {
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto person = find_person_in(transaction, text);
    if (!person) return person.errors();
    transaction.append(author, kind, "person:" + person->person,
                       {{"person", person->person}, {"on", engine::text_of(on)}});
    return Done{};
  });
}

}  // namespace

Result<RecallState> move_recall(Ledger& ledger, const Author& author, const std::string& recall, Move move,
                                const MoveDetails& details) {
  if (auto errors = missing(move, details); !errors.empty()) return errors;
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
    const auto next = after(known->state, move);
    if (!next || move == Move::answer) return not_allowed(*known, move);
    state = *next;
    transaction.append(author, kind_of(move), "recall:" + known->id(),
                       body_of(transaction, author, *known, move, state, details));
    return Done{};
  });
  if (!done) return done.errors();
  return state;
}

Result<Done> report_death(Ledger& ledger, const Author& author, const std::string& person,
                          const engine::Date& on) {
  return report(ledger, author, Kind::person_died, person, on);
}

Result<Done> report_move_away(Ledger& ledger, const Author& author, const std::string& person,
                              const engine::Date& on) {
  return report(ledger, author, Kind::person_moved_away, person, on);
}

}  // namespace ledger
