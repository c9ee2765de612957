// What became of the examination: pathology, signature, the next examination.

#include "late_clock.h"
#include "measures/counting.h"

namespace ledger {

using Verdict = MeasuredCase::Verdict;
using engine::Date;

namespace {

constexpr std::int64_t acted_on_within = 5;  // working days

// A case is counted once its limit has passed, done or not: counting those that were done early, and leaving
// out those that still may be, would make every share look better than it is.
constexpr const char* limit_ahead = "the limit has not passed yet";

std::string in_days(std::int64_t days) {
  return std::to_string(days) + (days == 1 ? " day" : " days");
}

bool is_over(const std::string& state) {
  return state == "closed" || state == "handed over";
}

}  // namespace

std::int64_t working_days_between(const Date& from, const Date& to) {
  std::int64_t count = 0;
  for (Date day = plus_days(from, 1); day <= to; day = plus_days(day, 1)) {
    if (engine::weekday(day) <= 5) ++count;
  }
  return count;
}

void count_in_line(const Course& course, const MeasureContext& context, Measure& measure) {
  for (const CourseExamination& one : course.examinations) {
    if (!context.period.holds(one.date)) continue;
    if (one.outcome.empty()) {
      add_case(measure, course, one.line.exam, Verdict::excluded, "without an outcome yet");
    } else {
      add_case(measure, course, one.line.exam, one.outcome == "signed" ? Verdict::met : Verdict::not_met,
               one.action);
    }
  }
}

void count_acted_on(const Course& course, const MeasureContext& context, Measure& measure) {
  for (const CourseExamination& one : course.examinations) {
    if (!context.period.holds(one.date) || !one.reported) continue;
    if (working_days_between(*one.reported, context.today) <= acted_on_within) {
      add_case(measure, course, one.line.exam, Verdict::excluded, limit_ahead);
      continue;
    }
    const Date until = one.signed_on.value_or(context.today);
    const std::int64_t days = working_days_between(*one.reported, until);
    add_case(measure, course, one.line.exam, days <= acted_on_within ? Verdict::met : Verdict::not_met,
             std::to_string(days) + " working days" + (one.signed_on ? "" : ", not signed yet"));
  }
}

template <int days>
void count_pathology_within(const Course& course, const MeasureContext& context, Measure& measure) {
  for (const CourseExamination& one : course.examinations) {
    if (!context.period.holds(one.date)) continue;
    const bool awaits = one.exam.awaits_histology();
    if (!awaits && !one.reported) continue;  // no pot, or its histology came with the record
    const Date sent = one.sent.value_or(one.date);
    if (days_between(sent, context.today) <= days) {
      add_case(measure, course, one.line.exam, Verdict::excluded, limit_ahead);
      continue;
    }
    const std::int64_t taken = days_between(sent, awaits ? context.today : *one.reported);
    add_case(measure, course, one.line.exam, !awaits && taken <= days ? Verdict::met : Verdict::not_met,
             in_days(taken) + (awaits ? ", still awaited" : ""));
  }
}
template void count_pathology_within<7>(const Course&, const MeasureContext&, Measure&);
template void count_pathology_within<10>(const Course&, const MeasureContext&, Measure&);
template void count_pathology_within<14>(const Course&, const MeasureContext&, Measure&);

template <int days>
void count_on_time(const Course& course, const MeasureContext& context, Measure& measure) {
  for (const CourseRecall& recall : course.recalls) {
    if (!context.period.holds(recall.due)) continue;
    const Date limit = late_date(recall.due, recall.not_ready, days);
    const CourseExamination* answer = course.examination(recall.answered_by);
    if (context.today <= limit) {
      add_case(measure, course, recall.exam, Verdict::excluded, limit_ahead);
    } else if (answer != nullptr) {
      add_case(
          measure, course, recall.exam, answer->date <= limit ? Verdict::met : Verdict::not_met,
          recall.id + ", examined " + in_days(days_between(recall.due, answer->date)) + " from the due date");
    } else if (is_over(recall.state)) {
      add_case(measure, course, recall.exam, Verdict::excluded, recall.state);
    } else {
      add_case(measure, course, recall.exam, Verdict::not_met, recall.id + ", not examined yet");
    }
  }
}
template void count_on_time<0>(const Course&, const MeasureContext&, Measure&);
template void count_on_time<42>(const Course&, const MeasureContext&, Measure&);
template void count_on_time<90>(const Course&, const MeasureContext&, Measure&);
template void count_on_time<180>(const Course&, const MeasureContext&, Measure&);

}  // namespace ledger
