// Whom the guideline covers, which examinations make up the baseline, and whether it is complete.

#include "engine/differential/hand_written_uk_2020/patient.h"

#include <algorithm>

namespace testing::by_hand {

Patient2020::Patient2020(const Record& record, const std::vector<Taken>& taken_histology)
    : exam(record.exam), patient(record.patient), setting(record.setting), taken(taken_histology) {
  if (record.previous) {
    for (const Examination& earlier : *record.previous) all.push_back(&earlier);
  }
  previous = all;
  all.push_back(&exam);
}

// --- what was left behind ---------------------------------------------------------------------------------

template <class Check>
bool Patient2020::every_left_behind(const Examination& examination, Check check) const {
  for (const Lesion& lesion : examination.lesions) {
    const Removal removal = lesion.removal.value;
    const bool left = is_scan(examination) || removal == Removal::not_removed ||
                      (removal == Removal::biopsy_only && premalignant(lesion));
    if (left && !check(lesion)) return false;
  }
  return true;
}
bool Patient2020::all_cleared(const Examination& examination) const {
  if (examination.cleared.is_known() && !is_scan(examination)) return examination.cleared.value;
  return every_left_behind(examination, [](const Lesion&) { return false; });
}
bool Patient2020::sound(const Examination& examination) const {
  return sees_the_colon(examination, resected) && all_cleared(examination);
}

// --- scope ------------------------------------------------------------------------------------------------

void Patient2020::read_history() {
  read_resections();
  ever = counted(all);
}

void Patient2020::read_resections() {
  if (!patient.conditions) return;
  for (const Condition& condition : *patient.conditions) {
    if (condition.name != ConditionName::colorectal_cancer_resected) continue;
    resected = true;
    const auto& day = condition.resection_date;
    if (day && (!resection || *day > *resection)) resection = day;
  }
}

bool Patient2020::has(ConditionName name) const {
  return patient.conditions && std::any_of(patient.conditions->begin(), patient.conditions->end(),
                                           [&](const Condition& c) { return c.name == name; });
}

std::optional<Row> Patient2020::out_of_scope() const {
  if (has(ConditionName::lynch_syndrome)) return Row::lynch_syndrome;
  if (has(ConditionName::familial_adenomatous_polyposis)) return Row::familial_polyposis;
  if (has(ConditionName::mutyh_associated_polyposis)) return Row::mutyh_polyposis;
  if (has(ConditionName::serrated_polyposis_syndrome)) return Row::serrated_polyposis;
  if (has(ConditionName::ulcerative_colitis) || has(ConditionName::crohns_colitis)) return Row::colitis;
  if (has(ConditionName::primary_sclerosing_cholangitis)) return Row::cholangitis;
  if (exam.indication.value == Indication::bowel_disease_surveillance) return Row::colitis_surveillance;
  if (meets_serrated_polyposis()) return Row::serrated_polyposis_by_findings;
  return std::nullopt;
}

bool Patient2020::meets_serrated_polyposis() const {
  int above_rectum = 0, large = 0, all_serrated = 0;
  for (const Lesion* lesion : ever) {
    if (!is_serrated(type(*lesion))) continue;
    const int number = lesion->number.value;
    all_serrated += number;
    if (lesion->site.value == Segment::rectum) continue;
    above_rectum += number;
    if (lesion->size.value >= 10_mm) large += number;
  }
  if (above_rectum < 5) return false;
  if (all_serrated > 20) return true;
  const auto of_five = [&](const Lesion& l) {
    return l.size.value >= 5_mm && l.site.value != Segment::rectum && is_serrated(type(l));
  };
  return large >= 2 && polyps(ever, of_five) >= 5;
}

bool Patient2020::has_cancer_without_resection() const {
  for (const Examination* examination : all) {
    if (resection && *resection >= examination->date) continue;
    for (const Lesion& lesion : examination->lesions) {
      if (can_be_reported(lesion) && type(lesion) == LesionType::adenocarcinoma) return true;
    }
  }
  return false;
}

// --- the baseline: which examinations count together ------------------------------------------------------

void Patient2020::find_baseline() {
  is_at_site_check = is_site_check(exam);
  for (const Examination* earlier : previous) {
    if (!is_site_check(*earlier)) ordinary.push_back(earlier);
  }
  const bool looks_back = is_at_site_check && !ordinary.empty();
  reference = looks_back ? ordinary.back() : &exam;
  take_together();
  findings = counted(together);
  procedures = together;
  if (is_at_site_check) procedures.push_back(&exam);
  find_state_after_cancer();
}

void Patient2020::take_together() {
  const Date since = plus(reference->date, -24), recent = days_before(reference->date, 90);
  const bool looks_back = reference != &exam;
  const auto eligible = [&](const Examination& e) { return !looks_back || e.date < reference->date; };
  const auto completed_since = [&](const Date& day) {
    return std::any_of(ordinary.begin(), ordinary.end(), [&](const Examination* other) {
      return eligible(*other) && other->date >= day && sound(*other);
    });
  };
  for (const Examination* earlier : ordinary) {
    if (!eligible(*earlier) || earlier->date < since) continue;
    if (earlier->date >= recent || !completed_since(earlier->date)) together.push_back(earlier);
  }
  together.push_back(reference);
}

Date Patient2020::first_together() const {
  Date first = together.front()->date;
  for (const Examination* examination : together) first = std::min(first, examination->date);
  return first;
}

void Patient2020::find_state_after_cancer() {
  if (!resected) {
    const bool follow_up = exam.indication.value == Indication::cancer_follow_up;
    after_cancer = follow_up ? AfterCancer::no_date : AfterCancer::none;
    return;
  }
  if (!resection) {
    after_cancer = AfterCancer::no_date;
    return;
  }
  const Date half_a_year_on = plus(*resection, 6);
  if (reference->date < half_a_year_on) {
    after_cancer = AfterCancer::clearance_due;
    return;
  }
  const Date first = first_together();
  Examinations clearances;
  for (const Examination* e : ordinary) {
    if (e->date >= half_a_year_on && e->date < first && sound(*e)) clearances.push_back(e);
  }
  after_cancer = AfterCancer::clearance_done;
  if (clearances.empty()) return;
  clearance = clearances.front()->date;
  clearances.push_back(reference);
  const Date two_years_on = plus(clearance, 24);
  const bool late = std::any_of(clearances.begin(), clearances.end(),
                                [&](const Examination* e) { return e->date >= two_years_on; });
  after_cancer = late ? AfterCancer::year_four : AfterCancer::clearance_done_before;
}

// --- quality ----------------------------------------------------------------------------------------------

bool Patient2020::colon_seen() const {
  if (is_at_site_check && ordinary.empty()) return true;
  const auto sees = [&](const Examination* e) { return sees_the_colon(*e, resected); };
  if (std::any_of(procedures.begin(), procedures.end(), sees)) return true;
  if (after_cancer != AfterCancer::clearance_due) return false;
  const Date since = plus(*resection, -6);
  return std::any_of(previous.begin(), previous.end(),
                     [&](const Examination* e) { return e->date >= since && sees(e); });
}

bool Patient2020::nothing_left() const {
  if (!all_cleared(exam)) return false;
  const bool now_seen = sees_the_colon(exam, resected);
  return std::all_of(procedures.begin(), procedures.end(), [&](const Examination* e) {
    if (e->date >= exam.date || all_cleared(*e) || now_seen) return true;
    bool any = false;
    const bool all_removed = every_left_behind(*e, [&](const Lesion& lesion) {
      any = true;
      return removed_later(lesion, e->date, procedures);
    });
    return any && all_removed;
  });
}

Shortcomings Patient2020::look_again() const {
  Shortcomings found;
  if (!colon_seen()) {
    if (after_cancer == AfterCancer::clearance_due) found.add(Row::colon_not_seen_before_resection);
    if (is_at_site_check) {
      found.add(Row::baseline_still_open);
    } else {
      if (!well_prepared(exam)) found.add(Row::poor_preparation);
      if (!reaches_the_end(exam, resected)) {
        found.add(Row::incomplete);
        found.add(Row::other_ways_to_complete);
      }
    }
  }
  if (!nothing_left()) found.add(is_scan(exam) ? Row::seen_at_ct : Row::not_cleared);
  return found;
}

}  // namespace testing::by_hand
