// What the examination itself was like.

#include <algorithm>

#include "measures/counting.h"

namespace ledger {

using Verdict = MeasuredCase::Verdict;
using engine::Grade;
using engine::LesionType;
using engine::Segment;

namespace {

bool is_adenoma(LesionType type) {
  return type == LesionType::tubular_adenoma || type == LesionType::tubulovillous_adenoma ||
         type == LesionType::villous_adenoma;
}

bool has_adenoma(const engine::Examination& exam) {
  return std::any_of(exam.lesions.begin(), exam.lesions.end(), [](const engine::Lesion& lesion) {
    return lesion.histology && lesion.histology->type.is_known() && is_adenoma(lesion.histology->type.value);
  });
}

std::optional<bool> adequate(const engine::Boston& boston) {
  for (const auto* segment : {&boston.right, &boston.transverse, &boston.left}) {
    if (segment->is_known() && segment->value < 2) return false;
  }
  if (!boston.right.is_known() || !boston.transverse.is_known() || !boston.left.is_known())
    return std::nullopt;
  return true;
}

}  // namespace

std::optional<bool> adequate_preparation(const engine::Examination& exam) {
  if (exam.boston) return adequate(*exam.boston);
  if (!exam.graded.is_known()) return std::nullopt;
  const Grade grade = exam.graded.value;
  return grade == Grade::excellent || grade == Grade::good || grade == Grade::adequate;
}

std::optional<bool> reached_the_end(const engine::Examination& exam) {
  if (!exam.reached.is_known()) return std::nullopt;
  const Segment reached = exam.reached.value;
  return reached == Segment::terminal_ileum || reached == Segment::caecum || reached == Segment::anastomosis;
}

void count_caecal_intubation(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    const auto met = reached_the_end(one.exam);
    if (!met)
      return add_case(measure, course, one.line.exam, Verdict::excluded, "not stated how far it reached");
    add_case(measure, course, one.line.exam, *met ? Verdict::met : Verdict::not_met);
  });
}

void count_adenoma_detection(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    if (has_adenoma(one.exam)) return add_case(measure, course, one.line.exam, Verdict::met);
    if (one.exam.awaits_histology())
      return add_case(measure, course, one.line.exam, Verdict::excluded, "histology awaited");
    if (!one.exam.lesions_stated)
      return add_case(measure, course, one.line.exam, Verdict::excluded, "not stated what was found");
    add_case(measure, course, one.line.exam, Verdict::not_met);
  });
}

void count_preparation(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    const auto met = adequate_preparation(one.exam);
    if (!met) return add_case(measure, course, one.line.exam, Verdict::excluded, "preparation not stated");
    add_case(measure, course, one.line.exam, *met ? Verdict::met : Verdict::not_met);
  });
}

void count_retrieval(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    for (const engine::Lesion& lesion : one.exam.lesions) {
      if (!is_removed(lesion)) continue;
      Verdict verdict = Verdict::excluded;
      if (lesion.retrieved.is_known()) verdict = lesion.retrieved.value ? Verdict::met : Verdict::not_met;
      const std::int32_t polyps = lesion.number.is_known() ? lesion.number.value : 1;
      for (std::int32_t i = 0; i < polyps; ++i) {
        add_case(measure, course, one.line.exam, verdict,
                 verdict == Verdict::excluded ? "retrieval not stated" : "lesion " + lesion.id);
      }
    }
  });
}

}  // namespace ledger
