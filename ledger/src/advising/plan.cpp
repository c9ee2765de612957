#include "advising/plan.h"

#include <algorithm>

#include "database/known_recalls.h"
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

json plan_body(const KnownExamination& examination, const Plan& plan, const std::string& recall,
               const std::vector<NotReady>& not_ready) {
  const engine::Date examined = engine::parse_date(examination.date).value();
  const std::int64_t interval = std::max<std::int64_t>(1, days_between(examined, plan.due->from));
  return {{"person", examination.person},
          {"exam", examination.exam},
          {"recall", recall},
          {"advice", plan.advice},
          {"action", std::string(engine::text_of(plan.action))},
          {"ruleset", plan.ruleset},
          {"rule", plan.rule},
          {"clinician", plan.clinician},
          {"risk", plan.risk},
          {"due", engine::text_of(plan.due->from)},
          {"due_to", engine::text_of(plan.due->to)},
          {"late_on", engine::text_of(late_date(plan.due->from, not_ready))},
          {"interval_days", interval}};
}

Carried open(Transaction& transaction, const Author& author, const KnownExamination& examination,
             const Plan& plan) {
  if (const auto later = later_than(transaction, examination)) {
    return {"",
            {"no recall is opened: examination `" + later->exam + "` of " + later->date + " came after it"}};
  }
  const std::string recall = "R" + std::to_string(transaction.next());
  transaction.append(author, Kind::recall_opened, "recall:" + recall,
                     plan_body(examination, plan, recall, {}));
  return {recall, {"recall " + recall + " is open, due " + engine::text_of(plan.due->from)}};
}

Carried redate(Transaction& transaction, const Author& author, const KnownExamination& examination,
               const Plan& plan, const KnownRecall& recall) {
  json body = plan_body(examination, plan, recall.id(), not_ready_of(transaction, recall.number));
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

}  // namespace ledger
