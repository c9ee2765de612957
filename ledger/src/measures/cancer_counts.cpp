// Cancers found after a colonoscopy that did not find them: the 3-year method and the classes of intervals.
// Source: World Endoscopy Organization consensus statements (Rutter 2018), from memory; docs/measures.md says
// where this reading of them chooses.

#include <algorithm>

#include "late_clock.h"
#include "measures/counting.h"

namespace ledger {

using Verdict = MeasuredCase::Verdict;
using engine::Date;
using engine::Months;

namespace {

bool shows_cancer(const engine::Examination& exam) {
  return std::any_of(exam.lesions.begin(), exam.lesions.end(), [](const engine::Lesion& lesion) {
    return lesion.histology && lesion.histology->type.is_known() &&
           lesion.histology->type.value == engine::LesionType::adenocarcinoma;
  });
}

/// The person's first cancer: of the first examination that shows one, or resected before that.
std::optional<Date> diagnosis_of(const Course& course) {
  std::optional<Date> day;
  const auto take = [&](const Date& other) { day = day ? std::min(*day, other) : other; };
  for (const CourseExamination& one : course.examinations) {
    if (shows_cancer(one.exam)) take(one.date);
    for (const engine::Condition& condition : one.conditions) {
      if (condition.name == engine::ConditionName::colorectal_cancer_resected && condition.resection_date)
        take(*condition.resection_date);
    }
  }
  return day;
}

bool within(const Date& examined, int months, const Date& diagnosed) {
  const auto limit = engine::add(examined, Months{months});
  return limit && diagnosed <= *limit;
}

/// By the date that was planned when the colonoscopy was signed.
std::string class_of(const CourseExamination& missed, const Date& diagnosed) {
  if (!missed.due) return "non-interval type C: no examination was planned";
  if (diagnosed < *missed.due) return "interval: before the planned examination";
  const Date last = std::max(*missed.due_to, plus_days(*missed.due, late_after_days));
  return diagnosed <= last ? "non-interval type A: at the planned examination"
                           : "non-interval type B: after the planned examination";
}

}  // namespace

void count_post_colonoscopy_cancers(const Course& course, const MeasureContext& context, Measure& measure) {
  constexpr int detected_months = 6, missed_months = 36;
  const auto diagnosed = diagnosis_of(course);
  if (!diagnosed) return;
  const CourseExamination *missed = nullptr, *detected = nullptr;
  for (const CourseExamination& one : course.examinations) {
    if (!is_colonoscopy(one.exam) || *diagnosed < one.date) continue;
    if (within(one.date, detected_months, *diagnosed)) {
      if (detected == nullptr) detected = &one;
    } else if (within(one.date, missed_months, *diagnosed)) {
      missed = &one;  // the last one counts
    }
  }
  const CourseExamination* counted = missed != nullptr ? missed : detected;
  if (counted == nullptr || !context.period.holds(counted->date)) return;
  const auto complete = engine::add(counted->date, Months{missed_months});
  if (!complete || context.today < *complete) {
    return add_case(measure, course, counted->line.exam, Verdict::excluded, "less than 3 years ago");
  }
  const std::string day = "diagnosed " + engine::text_of(*diagnosed);
  missed != nullptr
      ? add_case(measure, course, missed->line.exam, Verdict::met, day + ", " + class_of(*missed, *diagnosed))
      : add_case(measure, course, detected->line.exam, Verdict::not_met, day + ", detected");
}

}  // namespace ledger
