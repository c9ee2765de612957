// One patient whose histology is known or taken: what uk-2020 derives from the record before it decides.

#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/advice.h"
#include "engine/differential/hand_written_uk_2020/findings.h"
#include "engine/differential/hand_written_uk_2020/rows.h"
#include "engine/record.h"

namespace testing::by_hand {

enum class AfterCancer : std::uint8_t {
  none,
  no_date,
  clearance_due,
  clearance_done,
  clearance_done_before,
  year_four
};
enum class Stage : std::uint8_t {
  not_looked_at,
  recurrence_treated,
  one_look,
  one_look_late,
  two_looks,
  closed
};

/// Histology that is tried in the place of what is not known.
struct Taken {
  const Lesion* lesion;
  const Histology* histology;
};

struct Risk {
  int premalignant = 0;
  int advanced = 0;  ///< Counted only where it decides: of two to four.
  bool high = false;
};

/// A resection whose site has to be looked at again, and how far that has come.
struct SiteOfResection {
  const Lesion* lesion;
  Date day;
  bool large = false;
  Stage stage = Stage::not_looked_at;
  Date since;
  bool looked_at_now = false;
  bool closed_now = false;  ///< Of 10 to 19 mm.
};

struct Step {
  Action action{};
  Months from, to;
  std::string_view anchor;  ///< What `since` is.
  Date since;
  Date due;
  bool limited = false;  ///< Ended by age and life expectancy.
  Row row{};
  Millimetres size;  ///< Of the polyp whose site it is.
};

/// Of one site, counted from `since`; not for a closed one.
Step site_step(bool large, Stage stage, Millimetres size, const Date& since);

/// Why the baseline is not complete.
class Shortcomings {
 public:
  void add(Row row) { rows_[size_++] = row; }
  bool empty() const { return size_ == 0; }
  Row front() const { return rows_[0]; }
  const Row* begin() const { return rows_.data(); }
  const Row* end() const { return rows_.data() + size_; }

 private:
  std::array<Row, 5> rows_{};
  std::size_t size_ = 0;
};

/// The functions below the first group need what those before them have found.
struct Patient2020 {
  /// Keeps references to both.
  Patient2020(const Record& record, const std::vector<Taken>& taken);

  /// Resections of cancer, and the lesions of all examinations.
  void read_history();
  std::optional<Row> out_of_scope() const;
  bool has_cancer_without_resection() const;
  /// Which examinations count together, and how far the follow-up of a cancer has come.
  void find_baseline();
  Date first_together() const;
  Shortcomings look_again() const;
  /// The sites and the steps that apply.
  void judge();

  std::optional<Row> stopped_by(const Step& step) const;
  std::optional<Row> stopped_on(const Date& due) const;
  std::optional<Row> missing_history() const;
  bool short_life() const { return patient.life_expectancy_under_10_years.value_or(false); }
  std::int64_t age_on(const Date& day) const { return by_hand::age_on(*patient.birth_date, day); }
  std::int64_t screening_from_age() const;
  bool after_surveillance() const { return reference->indication.value == Indication::surveillance; }
  Row low_risk_row() const;

  const Histology& histology(const Lesion& lesion) const {
    for (const Taken& found : taken) {
      if (found.lesion == &lesion) return *found.histology;
    }
    return *lesion.histology;
  }
  LesionType type(const Lesion& lesion) const { return histology(lesion).type.value; }
  bool premalignant(const Lesion& lesion) const {
    const LesionType t = type(lesion);
    if (is_adenoma(t)) return true;
    const bool small_rectal_hyperplastic = t == LesionType::hyperplastic_polyp && lesion.size.value <= 5_mm &&
                                           lesion.site.value == Segment::rectum;
    return is_serrated(t) && !small_rectal_hyperplastic;
  }
  bool advanced(const Lesion& lesion) const {
    if (!premalignant(lesion)) return false;
    if (lesion.size.value >= 10_mm) return true;
    const Histology& found = histology(lesion);
    if (is_adenoma(found.type.value)) return found.dysplasia.value == Dysplasia::high_grade;
    return found.type.value == LesionType::traditional_serrated_adenoma ||
           found.dysplasia.value != Dysplasia::none;
  }
  bool removed_r0(const Lesion& lesion) const {
    return lesion.removal.value == Removal::en_bloc && lesion.retrieved.value &&
           histology(lesion).margin.value == Margin::clear;
  }
  bool is_large_r0(const Lesion& lesion) const {
    return lesion.size.value >= 20_mm && lacks_stalk(lesion) && removed_r0(lesion);
  }
  bool owes_site_check(const Lesion& lesion) const {
    return lesion.size.value >= 10_mm && was_removed(lesion) && lacks_stalk(lesion) && !removed_r0(lesion);
  }
  bool looked_at(const Examination& exam, Segment site, const Date& day) const;
  Risk risk_of(const Lesions& lesions) const;

  const Examination& exam;
  const Patient& patient;
  const Setting& setting;
  const std::vector<Taken>& taken;
  Examinations all, previous;

  bool resected = false;
  std::optional<Date> resection;
  Lesions ever;  ///< Each once.

  bool is_at_site_check = false;
  Examinations ordinary, together, procedures;
  const Examination* reference = nullptr;
  Lesions findings;
  AfterCancer after_cancer = AfterCancer::none;
  Date clearance;

  std::int64_t age = 0;
  Risk risk, risk_at_site_check;
  std::vector<SiteOfResection> sites;
  std::vector<Step> steps;

 private:
  void read_resections();
  bool has(ConditionName name) const;
  bool meets_serrated_polyposis() const;
  void take_together();
  void find_state_after_cancer();
  bool colon_seen() const;
  bool nothing_left() const;
  template <class Check>
  bool every_left_behind(const Examination& exam, Check check) const;
  bool all_cleared(const Examination& exam) const;
  bool sound(const Examination& exam) const;
  Lesions new_at_site_check() const;
  bool recurrence_seen(const Examination& exam, Segment site) const;
  bool surveyed_since(const Date& day) const;
  void follow(SiteOfResection& site) const;
  void add_surveillance_steps();
  void add_surveillance(std::int64_t months, std::string_view anchor, const Date& since, bool limited,
                        Row row);
};

}  // namespace testing::by_hand
