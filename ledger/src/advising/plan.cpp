#include "advising/plan.h"

#include <algorithm>

#include "database/protocols.h"
#include "json_fields.h"
#include "late_clock.h"

namespace ledger {

using engine::Action;
using nlohmann::json;

namespace {

std::optional<KnownRecall> open_recall_of(Transaction& transaction, const KnownExamination& examination) {
  for (KnownRecall& recall : unended_recalls_of(transaction, examination.person)) {
    if (recall.exam == examination.exam) return std::move(recall);
  }
  return std::nullopt;
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
  transaction.append(author, Kind::recall_opened, "recall:" + recall,
                     plan_body(transaction, author, examination, plan, recall, {}));
  return {recall, {"recall " + recall + " is open, due " + engine::text_of(plan.due->from)}};
}

Carried redate(Transaction& transaction, const Author& author, const KnownExamination& examination,
               const Plan& plan, const KnownRecall& recall) {
  json body = plan_body(transaction, author, examination, plan, recall.id(),
                        not_ready_of(transaction, recall.number));
  body["reason"] = "advice signed anew";
  body["state"] = std::string(text_of(after(recall.state, Move::redate).value_or(recall.state)));
  transaction.append(author, Kind::recall_redated, "recall:" + recall.id(), body);
  return {recall.id(), {"recall " + recall.id() + " is now due " + engine::text_of(plan.due->from)}};
}

Carried close(Transaction& transaction, const Author& author, const Plan& plan, const KnownRecall& recall) {
  transaction.append(author, Kind::recall_closed, "recall:" + recall.id(),
                     {{"person", recall.person},
                      {"recall", recall.id()},
                      {"state", std::string(text_of(RecallState::closed))},
                      {"clinician", plan.clinician},
                      {"reason", "advice signed: " + std::string(engine::text_of(plan.action))},
                      {"on", engine::text_of(author.clock.today())}});
  return {recall.id(), {"recall " + recall.id() + " is closed"}};
}

}  // namespace

bool opens_recall(Action action) {
  return action == Action::surveillance_colonoscopy || action == Action::site_check ||
         action == Action::repeat_examination;
}

Carried carry_out(Transaction& transaction, const Author& author, const KnownExamination& examination,
                  const Plan& plan) {
  const auto recall = open_recall_of(transaction, examination);
  if (!opens_recall(plan.action)) return recall ? close(transaction, author, plan, *recall) : Carried{};
  return recall ? redate(transaction, author, examination, plan, *recall)
                : open(transaction, author, examination, plan);
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

}  // namespace

Carried open_next_step(Transaction& transaction, const Author& author, const KnownRecall& done,
                       const KnownExamination& examination) {
  if (done.later_steps.empty()) return {};
  const json& step = done.later_steps.front();
  const auto action = engine::action_of(text_at(step, "action"));
  const auto due = window_of(step, anchor_of(step, done, examination));
  if (!action || !opens_recall(*action) || !due) {
    return {"", {"the plan goes on with `" + text_at(step, "action") + "`, which opens no recall"}};
  }
  Plan plan{done.advice,
            *action,
            due,
            done.ruleset,
            text_at(step, "rule"),
            done.clinician,
            *action == Action::site_check ? std::int64_t{0} : std::max<std::int64_t>(1, examination.risk),
            done.signature.value_or(0),
            json(done.later_steps.begin() + 1, done.later_steps.end()),
            done.counted_from};
  const std::string recall = "R" + std::to_string(transaction.next());
  json body = plan_body(transaction, author, examination, plan, recall, {});
  body["follows"] = done.id();
  body["reason"] = "next step of the plan that was signed";
  transaction.append(author, Kind::recall_opened, "recall:" + recall, body);
  return {recall,
          {"recall " + recall + " is open as the next step of the plan that " + done.clinician +
           " signed, due " + text_at(body, "due")}};
}

}  // namespace ledger
