// The measures, each a function from a person's course to the cases it counts. Pure.

#pragma once

#include "ledger/measures.h"
#include "measures/course.h"

namespace ledger {

struct MeasureContext {
  Period period;
  engine::Date today;
};

using Count = void (*)(const Course&, const MeasureContext&, Measure&);

/// Of the examination itself: caecum, adenomas, preparation, retrieval.
void count_caecal_intubation(const Course& course, const MeasureContext& context, Measure& measure);
void count_adenoma_detection(const Course& course, const MeasureContext& context, Measure& measure);
void count_preparation(const Course& course, const MeasureContext& context, Measure& measure);
/// Cases are polyps, not examinations: a lesion entry counts as often as it stands for polyps.
void count_retrieval(const Course& course, const MeasureContext& context, Measure& measure);

/// What went wrong: of colonoscopies, and of those at which a polyp was removed.
void count_complications(const Course& course, const MeasureContext& context, Measure& measure);
void count_perforations(const Course& course, const MeasureContext& context, Measure& measure);
void count_polypectomy_complications(const Course& course, const MeasureContext& context, Measure& measure);
void count_polypectomy_bleedings(const Course& course, const MeasureContext& context, Measure& measure);

/// Of what came after it.
void count_in_line(const Course& course, const MeasureContext& context, Measure& measure);
void count_acted_on(const Course& course, const MeasureContext& context, Measure& measure);
/// Within so many days.
template <int days>
void count_pathology_within(const Course& course, const MeasureContext& context, Measure& measure);
template <int days>
void count_on_time(const Course& course, const MeasureContext& context, Measure& measure);
void count_post_colonoscopy_cancers(const Course& course, const MeasureContext& context, Measure& measure);

/// Every Boston segment at least 2, or graded excellent, good or adequate. None when it is not stated.
std::optional<bool> adequate_preparation(const engine::Examination& exam);

/// The caecum, the ileum behind it or an anastomosis was reached. None when it is not known.
std::optional<bool> reached_the_end(const engine::Examination& exam);

/// Monday to Friday, `from` not counted, `to` counted; bank holidays count as working days.
std::int64_t working_days_between(const engine::Date& from, const engine::Date& to);

/// Adds a case of one examination.
inline void add_case(Measure& measure, const Course& course, const std::string& exam,
                     MeasuredCase::Verdict verdict, std::string note = {}) {
  measure.cases.push_back({verdict, course.person.person, exam, std::move(note)});
}

inline bool is_colonoscopy(const engine::Examination& exam) {
  return exam.procedure.is_known() && exam.procedure.value == engine::Procedure::colonoscopy;
}

/// Calls `judge` with each colonoscopy of the period.
template <class Judge>
void each_colonoscopy(const Course& course, const MeasureContext& context, Judge judge) {
  for (const CourseExamination& one : course.examinations) {
    if (context.period.holds(one.date) && is_colonoscopy(one.exam)) judge(one);
  }
}

/// A polypectomy: more than a biopsy.
inline bool is_removed(const engine::Lesion& lesion) {
  return lesion.removal.is_known() && (lesion.removal.value == engine::Removal::en_bloc ||
                                       lesion.removal.value == engine::Removal::piecemeal);
}

}  // namespace ledger
