#include "advising/plan.h"

#include <algorithm>

#include "database/protocols.h"
#include "json_fields.h"
#include "late_clock.h"

namespace ledger {

using engine::Action;
using nlohmann::json;

namespace {

std::vector<KnownRecall> open_recalls_of(Transaction& transaction, const KnownExamination& examination) {
  std::vector<KnownRecall> recalls = unended_recalls_of(transaction, examination.person);
  std::erase_if(recalls, [&](const KnownRecall& recall) { return recall.exam != examination.exam; });
  return recalls;
}

std::optional<KnownExamination> later_than(Transaction& transaction, const KnownExamination& examination) {
  for (KnownExamination& other : examinations_of(transaction, examination.person)) {
    if (other.date > examination.date) return std::move(other);
  }
  return std::nullopt;
}

json plan_body(Transaction& transaction, const Author& author, const KnownExamination& examination,
               const Plan& plan, const std::string& recall, const std::vector<NotReady>& not_ready) {
  const ProtocolTerms terms = terms_on(transaction.connection(), author.clock.today());
  const engine::Date examined = engine::parse_date(examination.date).value();
  const engine::Date due = terms.interval_end == "to" ? plan.due->to : plan.due->from;
  const std::int64_t interval = std::max<std::int64_t>(1, days_between(examined, due));
  return {{"person", examination.person},
          {"exam", examination.exam},
          {"recall", recall},
          {"advice", plan.advice},
          {"signed", plan.signature},
          {"action", std::string(engine::text_of(plan.action))},
          {"ruleset", plan.ruleset},
          {"rule", plan.rule},
          {"clinician", plan.clinician},
          {"risk", plan.risk},
          {"due", engine::text_of(due)},
          {"due_to", engine::text_of(plan.due->to)},
          {"late_on", engine::text_of(late_date(due, not_ready, terms.late_after_days))},
          {"interval_days", interval},
          {"then", plan.later_steps},
          {"counted_from", plan.counted_from}};
}

Carried open(Transaction& transaction, const Author& author, const KnownExamination& examination,
             const Plan& plan) {
  if (const auto later = later_than(transaction, examination)) {
    return {"",
            {"no recall is opened: examination `" + later->exam + "` of " + later->date + " came after it"}};
  }
  const std::string recall = "R" + std::to_string(transaction.next());
  const json body = plan_body(transaction, author, examination, plan, recall, {});
  transaction.append(author, Kind::recall_opened, "recall:" + recall, body);
  return {recall, {"recall " + recall + " is open, due " + text_at(body, "due")}};
}

Carried redate(Transaction& transaction, const Author& author, const KnownExamination& examination,
               const Plan& plan, const KnownRecall& recall) {
  json body = plan_body(transaction, author, examination, plan, recall.id(),
                        not_ready_of(transaction, recall.number));
  const bool stays = text_at(body, "action") == recall.action &&
                     body.at("due") == engine::text_of(recall.due) && plan.due->to == recall.due_to;
  const RecallState state = stays ? recall.state : after(recall.state, Move::redate).value_or(recall.state);
  body["reason"] = "advice signed anew";
  body["state"] = std::string(text_of(state));
  transaction.append(author, Kind::recall_redated, "recall:" + recall.id(), body);
  Carried carried{
      recall.id(),
      {"recall " + recall.id() + (stays ? " stays due " : " is now due ") + text_at(body, "due")}};
  if (recall.state == RecallState::booked && !stays)
    carried.notes.push_back("recall " + recall.id() +
                            " was booked: book it again, or cancel the appointment");
  return carried;
}

std::string close(Transaction& transaction, const Author& author, const Plan& plan, const KnownRecall& recall,
                  const std::string& reason) {
  transaction.append(author, Kind::recall_closed, "recall:" + recall.id(),
                     {{"person", recall.person},
                      {"recall", recall.id()},
                      {"state", std::string(text_of(RecallState::closed))},
                      {"clinician", plan.clinician},
                      {"reason", reason},
                      {"on", engine::text_of(author.clock.today())}});
  return "recall " + recall.id() + " is closed";
}

}  // namespace

bool opens_recall(Action action) {
  return action == Action::surveillance_colonoscopy || action == Action::site_check ||
         action == Action::repeat_examination;
}

// A ledger of an earlier version may have several open recalls of one examination: one of them goes on.
Carried carry_out(Transaction& transaction, const Author& author, const KnownExamination& examination,
                  const Plan& plan) {
  const std::vector<KnownRecall> recalls = open_recalls_of(transaction, examination);
  const bool goes_on = opens_recall(plan.action);
  if (recalls.empty()) return goes_on ? open(transaction, author, examination, plan) : Carried{};
  Carried carried{recalls.front().id(), {}};
  if (goes_on) carried = redate(transaction, author, examination, plan, recalls.front());
  const std::string reason = goes_on ? "recall " + carried.recall + " takes its place"
                                     : "advice signed: " + std::string(engine::text_of(plan.action));
  for (std::size_t i = goes_on ? 1 : 0; i < recalls.size(); ++i)
    carried.notes.push_back(close(transaction, author, plan, recalls[i], reason));
  return carried;
}

namespace {

/// The day that a later step counts from.
engine::Date anchor_of(const json& step, const KnownRecall& done, const KnownExamination& examination) {
  const engine::Date examined = engine::parse_date(examination.date).value();
  const std::string what = text_at(step, "counted_from");
  if (what.empty() || what == "examination" || !done.counted_from.is_object()) return examined;
  if (text_at(done.counted_from, "what") != what) return examined;
  return engine::parse_date(text_at(done.counted_from, "date")).value_or(examined);
}

std::optional<engine::Window> window_of(const json& step, const engine::Date& anchor) {
  const auto interval = step.find("interval");
  if (interval == step.end() || !interval->is_object()) return std::nullopt;
  const auto counted = [&](const char* end) -> std::optional<engine::Date> {
    const auto duration = engine::parse_duration(text_at(*interval, end));
    if (!duration || !std::holds_alternative<engine::Months>(*duration)) return std::nullopt;
    return engine::add(anchor, std::get<engine::Months>(*duration));
  };
  const auto from = counted("from"), to = counted("to");
  if (!from || !to) return std::nullopt;
  return engine::Window{*from, *to};
}

/// The next step after `done`, or why there is none.
struct NextStep {
  const KnownRecall* done = nullptr;
  std::optional<Plan> plan;
  std::string action;
};

NextStep next_step_of(const KnownRecall& done, const KnownExamination& examination) {
  const json& step = done.later_steps.front();
  NextStep next{&done, std::nullopt, text_at(step, "action")};
  const auto action = engine::action_of(next.action);
  const auto due = window_of(step, anchor_of(step, done, examination));
  if (!action || !opens_recall(*action) || !due) return next;
  next.plan =
      Plan{done.advice,
           *action,
           due,
           done.ruleset,
           text_at(step, "rule"),
           done.clinician,
           *action == Action::site_check ? std::int64_t{0} : std::max<std::int64_t>(1, examination.risk),
           done.signature.value_or(0),
           json(done.later_steps.begin() + 1, done.later_steps.end()),
           done.counted_from};
  return next;
}

Carried open(Transaction& transaction, const Author& author, const KnownExamination& examination,
             const NextStep& next) {
  const std::string recall = "R" + std::to_string(transaction.next());
  json body = plan_body(transaction, author, examination, *next.plan, recall, {});
  body["follows"] = next.done->id();
  body["reason"] = "next step of the plan that was signed";
  transaction.append(author, Kind::recall_opened, "recall:" + recall, body);
  return {recall,
          {"recall " + recall + " is open as the next step of the plan that " + next.done->clinician +
           " signed, due " + text_at(body, "due")}};
}

}  // namespace

Carried open_next_step(Transaction& transaction, const Author& author, const std::vector<KnownRecall>& done,
                       const KnownExamination& examination) {
  const bool has_own_plan =
      !examination.outcome.empty() || !open_recalls_of(transaction, examination).empty();
  std::optional<NextStep> first;
  int found = 0;
  std::vector<std::string> notes;
  for (const KnownRecall& recall : done) {
    if (recall.later_steps.empty()) continue;
    const NextStep next = next_step_of(recall, examination);
    if (!next.plan) {
      notes.push_back("the plan goes on with `" + next.action + "`, which opens no recall");
    } else if (has_own_plan) {
      notes.push_back("the plan goes no further: examination `" + examination.exam + "` has its own");
    } else if (++found == 1 || next.plan->due->from < first->plan->due->from) {
      first = next;
    }
  }
  if (found > 1)
    notes.push_back("of " + std::to_string(found) + " next steps the one that is due first is open");
  Carried carried = first ? open(transaction, author, examination, *first) : Carried{};
  carried.notes.insert(carried.notes.end(), notes.begin(), notes.end());
  return carried;
}

}  // namespace ledger
