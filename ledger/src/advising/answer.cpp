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

Date day_of(const KnownExamination& examination) {
  return engine::parse_date(examination.date).value();
}

std::string answer(Transaction& transaction, const Author& author, const KnownRecall& recall,
                   const KnownExamination& examination) {
  const Date examined = day_of(examination);
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

std::vector<std::string> answer_recalls(Transaction& transaction, const Author& author,
                                        const KnownExamination& examination,
                                        const KnownBefore& known_before) {
  std::vector<std::string> notes;
  std::vector<KnownRecall> done;
  for (KnownRecall& recall : unended_recalls_of(transaction, examination.person)) {
    if (day_of(examination) <= recall.exam_date || known_before(recall, examination)) continue;
    notes.push_back(answer(transaction, author, recall, examination));
    done.push_back(std::move(recall));
  }
  const Carried next = open_next_step(transaction, author, done, examination);
  notes.insert(notes.end(), next.notes.begin(), next.notes.end());
  return notes;
}

/// Whose plan the recall is a step of, when that is another person's: nobody has signed it for this one.
std::optional<std::string> owner_of_plan(Transaction& transaction, const KnownRecall& recall) {
  if (!recall.follows) return std::nullopt;
  const auto before = find_recall(transaction, "R" + std::to_string(*recall.follows));
  if (!before || before->advice != recall.advice || before->person == recall.person) return std::nullopt;
  return before->person;
}

bool has_open_recall(Transaction& transaction, const KnownRecall& recall) {
  const auto open = unended_recalls_of(transaction, recall.person);
  return std::any_of(open.begin(), open.end(),
                     [&](const KnownRecall& other) { return other.exam == recall.exam; });
}

}  // namespace

std::vector<std::string> answer_recalls(Transaction& transaction, const Author& author,
                                        const KnownExamination& examination) {
  return answer_recalls(transaction, author, examination,
                        [](const KnownRecall&, const KnownExamination&) { return false; });
}

std::vector<std::string> close_steps_of_others(Transaction& transaction, const Author& author,
                                               const std::string& person, const std::string& clinician) {
  std::vector<std::string> notes;
  for (const KnownRecall& recall : unended_recalls_of(transaction, person)) {
    const auto owner = owner_of_plan(transaction, recall);
    if (!owner) continue;
    transaction.append(author, Kind::recall_closed, "recall:" + recall.id(),
                       {{"person", person},
                        {"recall", recall.id()},
                        {"state", std::string(text_of(RecallState::closed))},
                        {"clinician", clinician},
                        {"reason", "a step of the plan of " + *owner + ", who is another person"},
                        {"on", engine::text_of(author.clock.today())}});
    notes.push_back("recall " + recall.id() + ", a step of the plan of " + *owner + ", is closed");
  }
  return notes;
}

Rematched reopen_unanswered(Transaction& transaction, const Author& author, const std::string& person,
                            const std::function<bool(const KnownRecall&)>& concerned) {
  Rematched rematched;
  for (const KnownRecall& recall : recalls_of(transaction, person)) {
    if (recall.state != RecallState::answered || !concerned(recall)) continue;
    const KnownExamination examination = find_examination(transaction, recall.answered_by).value();
    const bool is_of_another = examination.person != person;
    if (!is_of_another && recall.exam_date < day_of(examination)) continue;
    if (owner_of_plan(transaction, recall) || has_open_recall(transaction, recall)) continue;
    transaction.append(
        author, Kind::recall_reopened, "recall:" + recall.id(),
        {{"person", person},
         {"recall", recall.id()},
         {"state", std::string(text_of(RecallState::opened))},
         {"reason", "examination `" + examination.exam + "`, which answered it, is " +
                        (is_of_another ? "that of " + examination.person : "of " + examination.date)},
         {"on", engine::text_of(author.clock.today())}});
    rematched.notes.push_back("recall " + recall.id() + " is open again");
    rematched.reopened.insert(recall.number);
  }
  return rematched;
}

void answer_newly(Transaction& transaction, const Author& author, const std::string& person,
                  const KnownBefore& known_before, Rematched& rematched) {
  const std::uint64_t before = transaction.head().size;
  const auto knew = [&](const KnownRecall& recall, const KnownExamination& examination) {
    const bool is_new = recall.number > before || rematched.reopened.contains(recall.number);
    return !is_new && known_before(recall, examination);
  };
  for (const KnownExamination& examination : examinations_of(transaction, person)) {
    for (const std::string& note : answer_recalls(transaction, author, examination, knew))
      rematched.notes.push_back("examination `" + examination.exam + "` " + note);
  }
}

}  // namespace ledger
