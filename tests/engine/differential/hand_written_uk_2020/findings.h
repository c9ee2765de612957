// What uk-2020 asks of one lesion and of one examination, written by hand.

#pragma once

#include <cstdint>
#include <vector>

#include "engine/record.h"

namespace testing::by_hand {

using namespace engine;

inline Date plus(const Date& date, std::int64_t months) {
  return *add(date, Months{months});
}
inline Date days_before(const Date& date, std::int64_t days) {
  return *date_from_days(days_since_epoch(date) - days);
}
inline std::int64_t age_on(const Date& birth, const Date& day) {
  return months_between(birth, day).count / 12;
}

// --- one lesion, one examination --------------------------------------------------------------------------

inline bool is_adenoma(LesionType type) {
  return type == LesionType::tubular_adenoma || type == LesionType::tubulovillous_adenoma ||
         type == LesionType::villous_adenoma;
}
inline bool is_serrated(LesionType type) {
  return type == LesionType::sessile_serrated_lesion || type == LesionType::traditional_serrated_adenoma ||
         type == LesionType::hyperplastic_polyp || type == LesionType::unclassified_serrated_polyp;
}
inline bool was_removed(const Lesion& lesion) {
  return lesion.removal.value == Removal::en_bloc || lesion.removal.value == Removal::piecemeal;
}
/// Something was cut and not lost.
inline bool can_be_reported(const Lesion& lesion) {
  return lesion.removal.value != Removal::not_removed && lesion.retrieved.value;
}
inline bool lacks_stalk(const Lesion& lesion) {
  return lesion.paris.value != Paris::ip;
}
inline bool same_place(Segment one, Segment other) {
  const auto beside_rectosigmoid = [](Segment s) {
    return s == Segment::rectum || s == Segment::sigmoid_colon;
  };
  return one == other || (one == Segment::rectosigmoid && beside_rectosigmoid(other)) ||
         (other == Segment::rectosigmoid && beside_rectosigmoid(one));
}
inline bool reached_place(Segment reached, Segment site) {
  if (reached == Segment::anastomosis || site == Segment::anastomosis) return true;
  return reached <= Segment::caecum || reached <= site;  // segments are listed from the far end
}
inline bool well_prepared(const Examination& exam) {
  if (exam.graded.is_known()) {
    return exam.graded.value != Grade::poor && exam.graded.value != Grade::inadequate;
  }
  return exam.boston->right.value >= 2 && exam.boston->transverse.value >= 2 && exam.boston->left.value >= 2;
}
inline bool is_scan(const Examination& exam) {
  return exam.procedure.value == Procedure::ct_colonography;
}
inline bool is_site_check(const Examination& exam) {
  return exam.indication.value == Indication::site_check;
}
inline bool reaches_the_end(const Examination& exam, bool resected) {
  return is_scan(exam) || exam.reached.value <= Segment::caecum ||
         (resected && exam.reached.value == Segment::anastomosis);
}
inline bool sees_the_colon(const Examination& exam, bool resected) {
  return reaches_the_end(exam, resected) && well_prepared(exam);
}

using Examinations = std::vector<const Examination*>;
using Lesions = std::vector<const Lesion*>;

inline bool removed_later(const Lesion& lesion, const Date& day, const Examinations& exams) {
  for (const Examination* later : exams) {
    if (later->date <= day) continue;
    for (const Lesion& l : later->lesions) {
      if (was_removed(l) && same_place(l.site.value, lesion.site.value)) return true;
    }
  }
  return false;
}
inline bool counts(const Lesion& lesion, const Date& day, const Examinations& exams) {
  return was_removed(lesion) ||
         (lesion.removal.value == Removal::biopsy_only && !removed_later(lesion, day, exams));
}
inline Lesions counted(const Examinations& exams) {
  Lesions lesions;
  lesions.reserve(16);
  for (const Examination* exam : exams) {
    for (const Lesion& lesion : exam->lesions) {
      if (counts(lesion, exam->date, exams)) lesions.push_back(&lesion);
    }
  }
  return lesions;
}
template <class Wanted>
int polyps(const Lesions& lesions, Wanted wanted) {
  int count = 0;
  for (const Lesion* lesion : lesions) {
    if (wanted(*lesion)) count += lesion->number.value;
  }
  return count;
}

}  // namespace testing::by_hand
