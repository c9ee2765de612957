// What went wrong at a colonoscopy or because of it. A record that says nothing of complications does not say
// that there were none: it is left out.

#include <algorithm>

#include "measures/counting.h"

namespace ledger {

using Verdict = MeasuredCase::Verdict;
using engine::Complication;
using engine::ComplicationKind;
using Kind = std::optional<ComplicationKind>;  // none: any

namespace {

std::string text_of(const Complication& one) {
  std::string text(engine::text_of(one.kind));
  if (one.on) text += " " + engine::text_of(*one.on);
  if (one.severity) text += ", " + std::string(engine::text_of(*one.severity));
  return text;
}

/// Those of `kind`, in a line; empty when there are none.
std::string found_in(const std::vector<Complication>& complications, Kind kind) {
  std::string line;
  for (const Complication& one : complications) {
    if (!kind || one.kind == *kind) line += (line.empty() ? "" : "; ") + text_of(one);
  }
  return line;
}

void count(const Course& course, const CourseExamination& one, Kind kind, Measure& measure) {
  if (!one.exam.complications)
    return add_case(measure, course, one.line.exam, Verdict::excluded, "complications not stated");
  std::string found = found_in(*one.exam.complications, kind);
  const Verdict verdict = found.empty() ? Verdict::not_met : Verdict::met;
  add_case(measure, course, one.line.exam, verdict, std::move(found));
}

/// Whether a polyp was removed; none when it is not stated and may have been.
std::optional<bool> had_polypectomy(const engine::Examination& exam) {
  if (std::any_of(exam.lesions.begin(), exam.lesions.end(), is_removed)) return true;
  const bool all_known =
      exam.lesions_stated && std::all_of(exam.lesions.begin(), exam.lesions.end(),
                                         [](const engine::Lesion& one) { return one.removal.is_known(); });
  return all_known ? std::optional(false) : std::nullopt;
}

void count_with_polypectomy(const Course& course, const MeasureContext& context, Kind kind,
                            Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    const auto removed = had_polypectomy(one.exam);
    if (!removed)
      return add_case(measure, course, one.line.exam, Verdict::excluded,
                      "not stated whether a polyp was removed");
    if (*removed) count(course, one, kind, measure);
  });
}

}  // namespace

void count_complications(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context,
                   [&](const CourseExamination& one) { count(course, one, std::nullopt, measure); });
}

void count_perforations(const Course& course, const MeasureContext& context, Measure& measure) {
  each_colonoscopy(course, context, [&](const CourseExamination& one) {
    count(course, one, ComplicationKind::perforation, measure);
  });
}

void count_polypectomy_complications(const Course& course, const MeasureContext& context, Measure& measure) {
  count_with_polypectomy(course, context, std::nullopt, measure);
}

void count_polypectomy_bleedings(const Course& course, const MeasureContext& context, Measure& measure) {
  count_with_polypectomy(course, context, ComplicationKind::bleeding, measure);
}

}  // namespace ledger
