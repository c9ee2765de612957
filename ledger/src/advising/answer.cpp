#include "advising/answer.h"

#include <algorithm>

#include "advising/plan.h"
#include "json_fields.h"

namespace ledger {

using engine::Date;
using nlohmann::json;

namespace {

/// Early is before the due window, late after the late date.
std::string timing_of(const KnownRecall& recall, const Date& examined) {
  if (examined < recall.due) return "early";
  return recall.late_on < examined ? "late" : "on time";
}

std::string answer(Transaction& transaction, const Author& author, const KnownRecall& recall,
                   const KnownExamination& examination, const Date& examined) {
  const std::string timing = timing_of(recall, examined);
  transaction.append(author, Kind::recall_answered, "recall:" + recall.id(),
                     {{"person", examination.person},
                      {"recall", recall.id()},
                      {"exam", examination.exam},
                      {"state", std::string(text_of(RecallState::answered))},
                      {"timing", timing},
                      {"days_after_due", days_between(recall.due, examined)}});
  return "answers recall " + recall.id() + " " + timing + ": due " + engine::text_of(recall.due) +
         ", examined " + examination.date;
}

}  // namespace

std::vector<std::string> answer_recalls(Transaction& transaction, const Author& author,
                                        const KnownExamination& examination) {
  std::vector<std::string> notes;
  const Date examined = engine::parse_date(examination.date).value();
  for (const KnownRecall& recall : unended_recalls_of(transaction, examination.person)) {
    if (examined <= recall.exam_date) continue;
    notes.push_back(answer(transaction, author, recall, examination, examined));
    const Carried next = open_next_step(transaction, author, recall, examination);
    notes.insert(notes.end(), next.notes.begin(), next.notes.end());
  }
  return notes;
}

}  // namespace ledger
