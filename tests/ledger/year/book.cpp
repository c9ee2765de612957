#include "ledger/year/book.h"

#include <algorithm>
#include <tuple>

namespace year {

Date plus(const Date& day, std::int64_t days) {
  return engine::date_from_days(engine::days_since_epoch(day) + days).value();
}

std::int64_t days_from(const Date& from, const Date& to) {
  return engine::days_since_epoch(to) - engine::days_since_epoch(from);
}

bool opens_recall(const std::string& action) {
  return action == "surveillance colonoscopy" || action == "site check" || action == "repeat examination";
}

namespace {

bool awaits(const json& lesion) {
  return lesion.at("histology").is_null() && lesion.at("retrieved") != false;
}

/// After the last attempt nobody is invited again, also when an appointment comes to nothing.
bool is_without_reply(const Recall& recall) {
  return recall.is_open() && recall.attempts == 5 && recall.state != "booked" && recall.state != "attended";
}

bool is_before(const Recall& a, const Recall& b) {
  return std::pair(a.id.size(), a.id) < std::pair(b.id.size(), b.id);  // R9 before R12
}

/// Without what is for people only (docs/record-format.md): it changes no advice.
json seen_by_rules(json record) {
  for (const char* key : {"identifiers", "name", "contact", "family_doctor", "needs"})
    record.at("patient").erase(key);
  json exams = record.value("previous", json::array());
  exams.push_back(record.at("exam"));
  for (json& exam : exams) {
    exam.erase("specimens");
    exam.erase("complications");
  }
  record["exams"] = std::move(exams);
  record.erase("previous");
  record.erase("exam");
  return record;
}

Date day_of(const json& text) {
  return engine::parse_date(text.get<std::string>()).value();
}

}  // namespace

std::string Examination::action() const {
  return chosen.at("action").is_null() ? "" : chosen.at("action").get<std::string>();
}

std::int64_t Examination::awaited() const {
  return std::count_if(exam.at("lesions").begin(), exam.at("lesions").end(), awaits);
}

Date Examination::since() const {
  std::optional<Date> first;
  for (const json& lesion : exam.at("lesions")) {
    if (!awaits(lesion)) continue;
    for (const json& pot : exam.at("specimens")) {
      if (pot.at("id") == lesion.at("specimen") && (!first || day_of(pot.at("sent")) < *first))
        first = day_of(pot.at("sent"));
    }
  }
  return first.value_or(date);
}

// Day by day: late when more than so many days on which the person could come have gone by since the due
// date.
bool Recall::is_late(const Date& today) const {
  std::int64_t days = 0;
  for (Date day = due; day <= today; day = plus(day, 1)) {
    const bool is_ready = std::none_of(not_ready.begin(), not_ready.end(), [&](const auto& period) {
      return period.first <= day && day <= period.second;
    });
    if (is_ready && ++days > late_after + 1) return true;
  }
  return false;
}

Date Recall::last_day_in_time() const {
  Date day = plus(due, late_after);
  while (!is_late(plus(day, 1))) day = plus(day, 1);
  return day;
}

int Book::survivor(int who) const {
  while (patients.at(static_cast<std::size_t>(who)).merged_into)
    who = *patients.at(static_cast<std::size_t>(who)).merged_into;
  return who;
}

std::vector<int> Book::numbers_of(int who) const {
  std::vector<int> numbers = {survivor(who)};
  for (const int other : ever_merged) {
    if (other != numbers.front() && survivor(other) == numbers.front()) numbers.push_back(other);
  }
  return numbers;
}

std::string Book::gone(int who) const {
  std::string found;
  for (const int number : numbers_of(who)) {
    const std::string& gone = patients.at(static_cast<std::size_t>(number)).gone;
    const bool counts_before = gone.starts_with("died") && !found.starts_with("died");
    if (!gone.empty() && (found.empty() || counts_before)) found = gone;
  }
  return found;
}

std::vector<Examination*> Book::exams_of(int who) {
  std::vector<Examination*> found;
  for (const int number : numbers_of(who)) {
    for (const std::string& exam : patients.at(static_cast<std::size_t>(number)).exams)
      found.push_back(&exams.at(exam));
  }
  std::sort(found.begin(), found.end(), [](const Examination* a, const Examination* b) {
    return std::tie(a->date, a->id) < std::tie(b->date, b->id);
  });
  return found;
}

std::vector<Recall*> Book::unended_recalls_of(int who) {
  std::vector<Recall*> found;
  for (auto& [id, recall] : recalls) {
    if (!recall.has_ended() && are_one(who_of(recall), who)) found.push_back(&recall);
  }
  std::sort(found.begin(), found.end(), [](const Recall* a, const Recall* b) { return is_before(*a, *b); });
  return found;
}

Recall* Book::open_recall_following(const std::string& exam) {
  for (auto& [id, recall] : recalls) {
    if (!recall.has_ended() && recall.exam == exam) return &recall;
  }
  return nullptr;
}

bool Book::can_be_reopened(const Recall& recall) {
  const Examination& exam = exams.at(recall.exam);
  return recall.has_ended() && open_recall_following(recall.exam) == nullptr &&
         (exam.outcome.empty() || exam.signature == recall.signature);
}

const Examination* Book::later_than(const Examination& exam) {
  for (const Examination* other : exams_of(exam.who)) {
    if (exam.date < other->date) return other;
  }
  return nullptr;
}

int Book::age_at_due(const Recall& recall) const {
  const Date born =
      day_of(patients.at(static_cast<std::size_t>(survivor(who_of(recall)))).described.at("birth_date"));
  const bool had_birthday = std::pair(born.month, born.day) <= std::pair(recall.due.month, recall.due.day);
  return recall.due.year - born.year - (had_birthday ? 0 : 1);
}

// Every earlier examination of the person, one for each day; background that was left out as it was told
// last.
json Book::record_of(const Examination& exam) {
  json record = {{"patient", exam.patient}, {"exam", exam.exam}};
  json previous = json::array(), told = json::object();
  for (const Examination* other : exams_of(exam.who)) {
    if (exam.date <= other->date) break;
    told.update(other->background);
    const json date = other->exam.at("date");
    if (previous.empty() || previous.back().at("date") != date) previous.push_back(other->exam);
  }
  told.update(exam.background);
  record.at("patient").update(told);
  if (!previous.empty()) record["previous"] = std::move(previous);
  if (!terms.settings.empty()) record["setting"] = terms.settings;
  return record;
}

void Book::give_advice(Examination& exam, Expected& expected) {
  expected.add("advice given", exam.id);
  if (exam.advice != 0) expected.add("advice superseded", exam.id);
  for (auto& [id, recall] : recalls) {
    if (recall.advice == exam.advice) recall.under_review = true;
  }
  exam.outcome.clear();
  exam.basis = record_of(exam);
}

void Book::give_changed_advice(const std::vector<Examination*>& of, Expected& expected) {
  for (Examination* exam : of) {
    if (seen_by_rules(record_of(*exam)) != seen_by_rules(exam->basis)) give_advice(*exam, expected);
  }
}

void Book::give_later_advice(const Examination& changed, const Date& from, Expected& expected) {
  std::vector<Examination*> later = exams_of(changed.who);
  std::erase_if(later, [&](const Examination* exam) { return exam->date <= from; });
  give_changed_advice(later, expected);
}

void Book::open(Recall recall, Expected& expected) {
  recall.id = "new " + recall.exam;
  recall.late_after = terms.late_after;
  expected.add("recall opened", recall.exam);
  ++flow.opened;
  recalls[recall.id] = std::move(recall);
}

std::optional<Recall> Book::next_step_of(const Recall& done, const Examination& exam) const {
  if (done.later_steps.empty()) return std::nullopt;
  const json& step = done.later_steps.front();
  if (!opens_recall(step.at("action")) || step.at("interval").is_null()) return std::nullopt;
  const json& event = step.at("counted_from");
  Date anchor = exam.date;
  if (event.is_string() && event != "examination" && done.counted_from.is_object() &&
      done.counted_from.at("what") == event)
    anchor = day_of(done.counted_from.at("date"));
  const auto counted = [&](const char* end) {
    const auto months = engine::parse_duration(step.at("interval").at(end).get<std::string>()).value();
    return engine::add(anchor, std::get<engine::Months>(months)).value();
  };
  Recall next;
  next.exam = exam.id;
  next.advice = done.advice;
  next.under_review = false;
  next.action = step.at("action");
  next.due = counted("from");
  next.due_to = counted("to");
  next.later_steps = json(done.later_steps.begin() + 1, done.later_steps.end());
  next.counted_from = done.counted_from;
  next.follows = done.id;
  next.signature = done.signature;
  return next;
}

// One examination has one plan: its own when it is signed, else the step that is due first.
void Book::open_next_step(const std::vector<Recall*>& done, Examination& exam, Expected& expected) {
  if (!exam.outcome.empty() || open_recall_following(exam.id) != nullptr) return;
  std::optional<Recall> first;
  for (const Recall* recall : done) {
    auto next = next_step_of(*recall, exam);
    if (next && (!first || next->due < first->due)) first = std::move(next);
  }
  if (first) open(std::move(*first), expected);
}

void Book::answer(Examination& exam, const Knew& knew_before, Expected& expected) {
  std::vector<Recall*> done;
  for (Recall* recall : unended_recalls_of(exam.who)) {
    if (exam.date <= date_of(recall->exam) || knew_before(*recall, exam)) continue;
    expected.add("recall answered", recall->id);
    if (recall->is_open()) ++flow.answered;
    recall->state = "answered";
    recall->answered_by = exam.id;
    done.push_back(recall);
  }
  open_next_step(done, exam, expected);
}

void Book::answer_all(int who, const Knew& knew_before, Expected& expected) {
  for (Examination* exam : exams_of(who)) answer(*exam, knew_before, expected);
}

void Book::reopen(Recall& recall, Expected& expected) {
  expected.add("recall reopened", recall.id);
  ++flow.reopened;
  recall.state = "opened";
  recall.attempts = 0;
  recall.vetted_on.clear();
  recall.answered_by.clear();
  recall.booked_for.reset();
  for (Letter& letter : letters) {
    if (letter.closed_recall == recall.id) letter.closed_recall.clear();
  }
}

void Book::close(Recall& recall, Expected& expected) {
  expected.add("recall closed", recall.id);
  if (recall.is_open()) ++flow.closed;
  recall.state = "closed";
  for (Letter& letter : letters) {
    if (letter.exam != recall.exam || letter.said.action != recall.action) continue;
    letter.closed_recall = recall.id;
    letter.closed_when_gone = !gone(who_of(recall)).empty();
  }
}

Step Book::told_of(const Examination& exam) const {
  Step step = exam.step;
  const Recall* latest = nullptr;
  for (const auto& [id, recall] : recalls) {
    if (recall.exam != exam.id || recall.signature != exam.signature) continue;
    if (latest == nullptr || is_before(*latest, recall)) latest = &recall;
  }
  if (latest != nullptr && latest->is_moved) step.due = latest->due;
  return step;
}

bool Book::is_wrong(const Letter& letter) const {
  const Examination& exam = exams.at(letter.exam);
  if (exam.outcome.empty()) return true;
  // Nobody writes about it to someone who was gone then, and is.
  const bool nobody_writes = letter.closed_when_gone && !gone(exam.who).empty();
  if (!letter.closed_recall.empty() && !nobody_writes) return true;
  const Step now = told_of(exam);
  return letter.said.action != now.action || letter.said.due != now.due;
}

void Book::carry_out(Examination& exam, const Step& step, const json& later_steps, const json& counted_from,
                     Expected& expected) {
  for (Letter& letter : letters) {
    if (letter.exam == exam.id) letter.closed_recall.clear();
  }
  exam.step = step;
  Recall* standing = open_recall_following(exam.id);
  if (!opens_recall(step.action)) {
    if (standing != nullptr) close(*standing, expected);
    return;
  }
  if (standing == nullptr && later_than(exam) != nullptr) return;
  Recall planned = standing != nullptr ? *standing : Recall{};
  const bool is_same = standing != nullptr && standing->action == step.action && standing->due == *step.due &&
                       standing->due_to == *step.due_to;
  planned.exam = exam.id;
  planned.advice = exam.advice;
  planned.action = step.action;
  planned.due = *step.due;
  planned.due_to = *step.due_to;
  planned.is_moved = false;
  planned.under_review = false;
  planned.later_steps = later_steps;
  planned.counted_from = counted_from;
  if (standing == nullptr) return open(std::move(planned), expected);
  expected.add("recall redated", planned.id);
  planned.late_after = terms.late_after;
  if (!is_same && planned.state != "handed over") {
    planned.state = "opened";
    planned.attempts = 0;
    planned.vetted_on.clear();
    planned.booked_for.reset();
  }
  *standing = std::move(planned);
}

void Book::look_again_at_unfollowed(int who, Expected& expected) {
  for (Examination* exam : exams_of(who)) {
    if (exam->outcome.empty()) continue;
    const Recall* standing = open_recall_following(exam->id);
    if (standing != nullptr && standing->signature == exam->signature) continue;
    const bool was_carried_out = std::any_of(recalls.begin(), recalls.end(), [&](const auto& named) {
      return named.second.exam == exam->id && named.second.signature == exam->signature;
    });
    const bool is_lost = opens_recall(exam->step.action) && later_than(*exam) == nullptr && !was_carried_out;
    if (standing != nullptr || is_lost) give_advice(*exam, expected);
  }
}

bool Book::is_to_close(const Recall& recall) const {
  if (!recall.is_open()) return false;
  if (!gone(who_of(recall)).empty()) return true;
  return recall.action == "surveillance colonoscopy" && recall.vetted_on.empty() &&
         age_at_due(recall) >= terms.age_limit;
}

std::map<std::string, std::set<std::string>> Book::lists() {
  std::map<std::string, std::set<std::string>> lists;
  const Date soon = plus(today, 42);
  for (const auto& [id, recall] : recalls) {
    if (recall.state == "handed over") lists["handed over"].insert(id);
    if (!recall.is_open()) continue;
    lists["open"].insert(id);
    if (recall.is_late(today)) {
      lists["overdue"].insert(id);
    } else {
      lists[recall.due <= soon ? "due" : "later"].insert(id);
    }
    if (recall.state == "opened" && recall.due <= soon) lists["to-vet"].insert(id);
    if (is_without_reply(recall)) lists["no-reply"].insert(id);
    if (is_to_close(recall)) lists["to-close"].insert(id);
  }
  for (const auto& [id, exam] : exams) {
    const bool has_outcome = !exam.outcome.empty();
    const bool waits = !has_outcome && exam.state() == "awaiting pathology";
    if (waits || exam.awaited() > 0) lists["awaiting"].insert(id);
    if (has_outcome || waits) continue;
    lists["unplanned"].insert(id);
    const bool has_its_date = !opens_recall(exam.action()) || exam.chosen.at("due").is_object();
    if (exam.state() == "settled" && exam.action() != "individualise" && has_its_date)
      lists["to-sign"].insert(id);
  }
  for (const Letter& letter : letters) {
    if (is_wrong(letter)) lists["to-resend"].insert(letter.exam + " " + letter.recipient);
  }
  for (const Input& input : waiting) lists["inputs"].insert(std::to_string(input.entry));
  return lists;
}

}  // namespace year
