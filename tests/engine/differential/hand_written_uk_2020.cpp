#include "engine/differential/hand_written_uk_2020.h"

#include <algorithm>
#include <array>
#include <vector>

#include "engine/differential/hand_written_findings.h"

namespace testing {

namespace {

using namespace by_hand;

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

struct Step {
  Action action{};
  Months from, to;
  Date since;
  Date due;
  bool limited = false;  ///< Ended by age and life expectancy.
  std::string_view rule;
};

struct IndexResection {
  const Lesion* lesion;
  Date day;
};

// --- one patient, all histology known or taken ------------------------------------------------------------

struct Taken {
  const Lesion* lesion;
  const Histology* histology;
};

class Patient2020 {
 public:
  Patient2020(const Record& record, const std::vector<Taken>& taken)
      : exam_(record.exam), patient_(record.patient), setting_(record.setting), taken_(taken) {
    if (record.previous) {
      for (const Examination& earlier : *record.previous) all_.push_back(&earlier);
    }
    previous_ = all_;
    all_.push_back(&exam_);
  }

  Plan plan() {
    read_resections();
    if (const std::string_view outside = out_of_scope(); !outside.empty())
      return {Action::refer, {}, outside};
    if (has_cancer_without_resection()) return {Action::refer, {}, "20-15"};
    find_baseline();
    if (const std::string_view again = look_again(); !again.empty())
      return {Action::repeat_examination, {}, again};
    age_ = age_on(*patient_.birth_date, exam_.date);
    if (age_ < 18) return {Action::refer, {}, "20-X8"};
    judge();
    return decide();
  }

 private:
  // --- histology ---

  const Histology& histology(const Lesion& lesion) const {
    for (const Taken& taken : taken_) {
      if (taken.lesion == &lesion) return *taken.histology;
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
  bool owes_site_check(const Lesion& lesion) const {
    return lesion.size.value >= 10_mm && was_removed(lesion) && lacks_stalk(lesion) && !removed_r0(lesion);
  }

  // --- what was left behind ---

  template <class Check>
  bool every_left_behind(const Examination& exam, Check check) const {
    for (const Lesion& lesion : exam.lesions) {
      const Removal removal = lesion.removal.value;
      const bool left = is_scan(exam) || removal == Removal::not_removed ||
                        (removal == Removal::biopsy_only && premalignant(lesion));
      if (left && !check(lesion)) return false;
    }
    return true;
  }
  bool all_cleared(const Examination& exam) const {
    if (exam.cleared.is_known() && !is_scan(exam)) return exam.cleared.value;
    return every_left_behind(exam, [](const Lesion&) { return false; });
  }
  bool sound(const Examination& exam) const { return sees_the_colon(exam, resected_) && all_cleared(exam); }

  // --- scope ---

  void read_resections() {
    if (!patient_.conditions) return;
    for (const Condition& condition : *patient_.conditions) {
      if (condition.name != ConditionName::colorectal_cancer_resected) continue;
      resected_ = true;
      const auto& day = condition.resection_date;
      if (day && (!resection_ || *day > *resection_)) resection_ = day;
    }
  }

  bool has(ConditionName name) const {
    return patient_.conditions && std::any_of(patient_.conditions->begin(), patient_.conditions->end(),
                                              [&](const Condition& c) { return c.name == name; });
  }

  std::string_view out_of_scope() const {
    if (has(ConditionName::lynch_syndrome)) return "20-X1";
    if (has(ConditionName::familial_adenomatous_polyposis)) return "20-X2";
    if (has(ConditionName::mutyh_associated_polyposis)) return "20-X3";
    if (has(ConditionName::serrated_polyposis_syndrome)) return "20-X4";
    if (has(ConditionName::ulcerative_colitis) || has(ConditionName::crohns_colitis)) return "20-X5";
    if (has(ConditionName::primary_sclerosing_cholangitis)) return "20-X6";
    if (exam_.indication.value == Indication::bowel_disease_surveillance) return "20-X7";
    return meets_serrated_polyposis() ? "20-A11" : "";
  }

  bool meets_serrated_polyposis() const {
    const Lesions ever = counted(all_);
    int above_rectum = 0, large = 0, all = 0;
    for (const Lesion* lesion : ever) {
      if (!is_serrated(type(*lesion))) continue;
      const int number = lesion->number.value;
      all += number;
      if (lesion->site.value == Segment::rectum) continue;
      above_rectum += number;
      if (lesion->size.value >= 10_mm) large += number;
    }
    if (above_rectum < 5) return false;
    if (all > 20) return true;
    const auto of_five = [&](const Lesion& l) {
      return l.size.value >= 5_mm && l.site.value != Segment::rectum && is_serrated(type(l));
    };
    return large >= 2 && polyps(ever, of_five) >= 5;
  }

  bool has_cancer_without_resection() const {
    for (const Examination* exam : all_) {
      if (resection_ && *resection_ >= exam->date) continue;
      for (const Lesion& lesion : exam->lesions) {
        const bool reported = lesion.removal.value != Removal::not_removed && lesion.retrieved.value;
        if (reported && type(lesion) == LesionType::adenocarcinoma) return true;
      }
    }
    return false;
  }

  // --- the baseline: which examinations count together ---

  void find_baseline() {
    site_check_ = is_site_check(exam_);
    for (const Examination* earlier : previous_) {
      if (!is_site_check(*earlier)) ordinary_.push_back(earlier);
    }
    const bool looks_back = site_check_ && !ordinary_.empty();
    reference_ = looks_back ? ordinary_.back() : &exam_;
    take_together();
    findings_ = counted(together_);
    procedures_ = together_;
    if (site_check_) procedures_.push_back(&exam_);
    find_state_after_cancer();
  }

  void take_together() {
    const Date since = plus(reference_->date, -24), recent = days_before(reference_->date, 90);
    const bool looks_back = reference_ != &exam_;
    const auto eligible = [&](const Examination& e) { return !looks_back || e.date < reference_->date; };
    const auto completed_since = [&](const Date& day) {
      return std::any_of(ordinary_.begin(), ordinary_.end(), [&](const Examination* other) {
        return eligible(*other) && other->date >= day && sound(*other);
      });
    };
    for (const Examination* earlier : ordinary_) {
      if (!eligible(*earlier) || earlier->date < since) continue;
      if (earlier->date >= recent || !completed_since(earlier->date)) together_.push_back(earlier);
    }
    together_.push_back(reference_);
  }

  void find_state_after_cancer() {
    if (!resected_) {
      const bool follow_up = exam_.indication.value == Indication::cancer_follow_up;
      after_cancer_ = follow_up ? AfterCancer::no_date : AfterCancer::none;
      return;
    }
    if (!resection_) {
      after_cancer_ = AfterCancer::no_date;
      return;
    }
    const Date half_a_year_on = plus(*resection_, 6);
    if (reference_->date < half_a_year_on) {
      after_cancer_ = AfterCancer::clearance_due;
      return;
    }
    Date first = together_.front()->date;
    for (const Examination* exam : together_) first = std::min(first, exam->date);
    Examinations clearances;
    for (const Examination* e : ordinary_) {
      if (e->date >= half_a_year_on && e->date < first && sound(*e)) clearances.push_back(e);
    }
    after_cancer_ = AfterCancer::clearance_done;
    if (clearances.empty()) return;
    clearance_ = clearances.front()->date;
    clearances.push_back(reference_);
    const Date two_years_on = plus(clearance_, 24);
    const bool late = std::any_of(clearances.begin(), clearances.end(),
                                  [&](const Examination* e) { return e->date >= two_years_on; });
    after_cancer_ = late ? AfterCancer::year_four : AfterCancer::clearance_done_before;
  }

  // --- quality ---

  bool colon_seen() const {
    if (site_check_ && ordinary_.empty()) return true;
    const auto sees = [&](const Examination* e) { return sees_the_colon(*e, resected_); };
    if (std::any_of(procedures_.begin(), procedures_.end(), sees)) return true;
    if (after_cancer_ != AfterCancer::clearance_due) return false;
    const Date since = plus(*resection_, -6);
    return std::any_of(previous_.begin(), previous_.end(),
                       [&](const Examination* e) { return e->date >= since && sees(e); });
  }

  bool nothing_left() const {
    if (!all_cleared(exam_)) return false;
    const bool now_seen = sees_the_colon(exam_, resected_);
    return std::all_of(procedures_.begin(), procedures_.end(), [&](const Examination* e) {
      if (e->date >= exam_.date || all_cleared(*e) || now_seen) return true;
      bool any = false;
      const bool all_removed = every_left_behind(*e, [&](const Lesion& lesion) {
        any = true;
        return removed_later(lesion, e->date, procedures_);
      });
      return any && all_removed;
    });
  }

  std::string_view look_again() const {
    if (!colon_seen()) {
      if (after_cancer_ == AfterCancer::clearance_due) return "20-14";
      if (site_check_) return "20-Q6";
      if (!well_prepared(exam_)) return "20-Q1";
      if (!reaches_the_end(exam_, resected_)) return "20-Q2";
    }
    if (nothing_left()) return "";
    return is_scan(exam_) ? "20-Q4" : "20-Q3";
  }

  // --- criteria ---

  bool high_risk(const Lesions& lesions) const {
    const int premalignant_polyps = polyps(lesions, [&](const Lesion& l) { return premalignant(l); });
    if (premalignant_polyps < 2) return false;
    return premalignant_polyps >= 5 || polyps(lesions, [&](const Lesion& l) { return advanced(l); }) >= 1;
  }

  void judge() {
    for (const Examination* exam : all_) {
      for (const Lesion& lesion : exam->lesions) {
        if (owes_site_check(lesion)) resections_.push_back({&lesion, exam->date});
      }
    }
    high_risk_ = high_risk(findings_);
    add_site_steps();
    add_surveillance_steps();
  }

  bool high_risk_at_site_check() const {
    if (!site_check_) return false;
    Lesions fresh;
    for (const Lesion& lesion : exam_.lesions) {
      const bool at_a_scar =
          std::any_of(resections_.begin(), resections_.end(), [&](const IndexResection& r) {
            return r.day < exam_.date && same_place(r.lesion->site.value, lesion.site.value);
          });
      if (!at_a_scar && counts(lesion, exam_.date, all_)) fresh.push_back(&lesion);
    }
    if (reference_->date >= days_before(exam_.date, 90)) {
      fresh.insert(fresh.end(), findings_.begin(), findings_.end());
    }
    return high_risk(fresh);
  }

  // --- site checks ---

  bool looked_at(const Examination& exam, Segment site, const Date& day) const {
    return exam.date > day && (is_site_check(exam) || exam.date >= plus(day, 2)) && !is_scan(exam) &&
           well_prepared(exam) && reached_place(exam.reached.value, site);
  }
  bool recurrence_seen(const Examination& exam, Segment site) const {
    return std::any_of(exam.lesions.begin(), exam.lesions.end(), [&](const Lesion& l) {
      return same_place(l.site.value, site) && (l.removal.value == Removal::not_removed || premalignant(l));
    });
  }
  bool surveyed_since(const Date& day) const {
    return std::any_of(all_.begin(), all_.end(), [&](const Examination* e) {
      return e->date > day && !is_site_check(*e) &&
             (e->indication.value == Indication::surveillance || e->date >= plus(day, 24)) && sound(*e);
    });
  }

  struct Site {
    Stage stage = Stage::not_looked_at;
    Date since;
  };

  Site follow(const IndexResection& index, bool large) const {
    const Segment site = index.lesion->site.value;
    Date start = index.day;
    bool recurred = false;
    for (const Examination* e : all_) {
      if (looked_at(*e, site, index.day) && recurrence_seen(*e, site)) {
        start = e->date;
        recurred = true;
      }
    }
    const Examination *first = nullptr, *last = nullptr;
    for (const Examination* e : all_) {
      if (e->date <= start || !looked_at(*e, site, index.day)) continue;
      if (!first) first = e;
      const bool second = e->date >= plus(start, 18) || (e->date >= plus(start, 12) && e->date > first->date);
      if (second && !last) last = e;
    }
    if (!first) return {recurred ? Stage::recurrence_treated : Stage::not_looked_at, start};
    if (!large || (last && surveyed_since(last->date))) return {Stage::closed, start};
    if (last) return {Stage::two_looks, last->date};
    if (plus(first->date, 12) > plus(start, 18)) return {Stage::one_look_late, start};
    return {Stage::one_look, first->date};
  }

  void add_site_steps() {
    for (const IndexResection& index : resections_) {
      const bool large = index.lesion->size.value >= 20_mm;
      const Site site = follow(index, large);
      switch (site.stage) {
        case Stage::not_looked_at:
          add_step(Action::site_check, 2, 6, site.since, false, large ? "20-05" : "20-08");
          break;
        case Stage::recurrence_treated:
          add_step(Action::site_check, 2, 6, site.since, false, "20-A19");
          break;
        case Stage::one_look:
          add_step(Action::site_check, 12, 12, site.since, false, "20-06");
          break;
        case Stage::one_look_late:
          add_step(Action::site_check, 18, 18, site.since, false, "20-A4");
          break;
        case Stage::two_looks:
          add_surveillance(36, site.since, true, "20-07");
          break;
        case Stage::closed:
          break;
      }
    }
  }

  // --- surveillance ---

  void add_surveillance_steps() {
    using enum AfterCancer;
    const bool by_findings =
        after_cancer_ == none || after_cancer_ == no_date || after_cancer_ == clearance_done_before;
    const bool surveillance = reference_->indication.value == Indication::surveillance;
    if (high_risk_ && by_findings && !surveillance) add_surveillance(36, reference_->date, true, "20-01");
    if (high_risk_at_site_check()) add_surveillance(36, exam_.date, true, "20-R1");
    if (high_risk_ && by_findings && surveillance) add_surveillance(36, reference_->date, true, "20-09");
    const bool large_r0 = std::any_of(findings_.begin(), findings_.end(), [&](const Lesion* l) {
      return l->size.value >= 20_mm && lacks_stalk(*l) && removed_r0(*l);
    });
    if (large_r0) add_surveillance(36, reference_->date, true, "20-04");
    if (after_cancer_ == clearance_due) add_surveillance(12, *resection_, false, "20-11");
    if (after_cancer_ == clearance_done) add_surveillance(36, reference_->date, true, "20-12");
    if (after_cancer_ == clearance_done_before) add_surveillance(36, clearance_, true, "20-12");
    if (high_risk_ && after_cancer_ == year_four) add_surveillance(36, reference_->date, true, "20-13");
  }

  void add_surveillance(std::int64_t months, const Date& since, bool limited, std::string_view rule) {
    add_step(Action::surveillance_colonoscopy, months, months, since, limited, rule);
  }
  void add_step(Action action, std::int64_t from, std::int64_t to, const Date& since, bool limited,
                std::string_view rule) {
    steps_.push_back({action, {from}, {to}, since, plus(since, from), limited, rule});
  }

  // --- the answer ---

  bool short_life() const { return patient_.life_expectancy_under_10_years.value_or(false); }

  std::string_view stopped_by(const Step& step) const {
    if (!step.limited) return "";
    if (short_life()) return "20-S2";
    return age_on(*patient_.birth_date, step.due) > 75 ? "20-S1" : "";
  }

  std::string_view missing_history() const {
    if (after_cancer_ == AfterCancer::no_date) return "20-P1";
    if (!site_check_) return "";
    for (const Examination* exam : ordinary_) {
      for (const Lesion& lesion : exam->lesions) {
        if (lesion.size.value >= 10_mm && was_removed(lesion)) return "";
      }
    }
    return "20-C0";
  }

  Plan decide() const {
    const Step* next = nullptr;
    bool must_look = false;
    std::string_view stopped;
    for (const Step& step : steps_) {
      if (const std::string_view stop = stopped_by(step); !stop.empty()) {
        if (stopped.empty()) stopped = stop;
        continue;
      }
      must_look = must_look || !step.limited;
      if (!next || step.due < next->due) next = &step;
    }
    if (!must_look) {
      const std::string_view missing = missing_history();
      if (!missing.empty()) return {Action::individualise, {}, missing};
    }
    if (next) return {next->action, Interval{next->from, next->to}, next->rule};
    if (!stopped.empty()) return {Action::no_surveillance, {}, stopped};
    return low_risk();
  }

  std::int64_t screening_from_age() const {
    if (setting_.screening_from_age) return *setting_.screening_from_age;
    const std::string_view nation = setting_.nation ? std::string_view(*setting_.nation) : "England";
    if (nation == "England") return exam_.date >= Date{2025, 1, 1} ? 50 : 60;
    return nation == "Northern Ireland" ? 60 : 50;
  }

  Plan low_risk() const {
    const bool surveillance = reference_->indication.value == Indication::surveillance;
    const bool after_cancer = after_cancer_ == AfterCancer::year_four;
    if (age_ > 75) {
      const std::string_view rule = after_cancer ? "20-13" : surveillance ? "20-10-over-75" : "20-02-over-75";
      return {Action::no_surveillance, {}, rule};
    }
    const auto is_premalignant = [&](const Lesion* l) { return premalignant(*l); };
    if (age_ < screening_from_age() - 10 &&
        std::any_of(findings_.begin(), findings_.end(), is_premalignant)) {
      if (short_life()) return {Action::no_surveillance, {}, "20-S2"};
      return {Action::individualise, Interval{{60}, {120}}, "20-03"};
    }
    return {Action::return_to_screening, {}, after_cancer ? "20-13" : surveillance ? "20-10" : "20-02"};
  }

  const Examination& exam_;
  const Patient& patient_;
  const Setting& setting_;
  const std::vector<Taken>& taken_;
  Examinations all_, previous_, ordinary_, together_, procedures_;
  bool resected_ = false, site_check_ = false, high_risk_ = false;
  std::optional<Date> resection_;
  const Examination* reference_ = nullptr;
  Lesions findings_;
  AfterCancer after_cancer_ = AfterCancer::none;
  Date clearance_;
  std::int64_t age_ = 0;
  std::vector<IndexResection> resections_;
  std::vector<Step> steps_;
};

// --- histology that is not known --------------------------------------------------------------------------

bool is_known(const std::optional<Histology>& found) {
  return found && found->type.is_known() && found->dysplasia.is_known() && found->margin.is_known();
}

/// One of each kind that the rules tell apart.
const std::vector<Histology>& kinds_of_histology() {
  static const std::vector<Histology> kinds = [] {
    constexpr std::array<std::pair<LesionType, Dysplasia>, 7> found{{
        {LesionType::tubular_adenoma, Dysplasia::low_grade},
        {LesionType::tubular_adenoma, Dysplasia::high_grade},
        {LesionType::sessile_serrated_lesion, Dysplasia::none},
        {LesionType::sessile_serrated_lesion, Dysplasia::low_grade},
        {LesionType::hyperplastic_polyp, Dysplasia::none},
        {LesionType::normal_mucosa, Dysplasia::none},
        {LesionType::adenocarcinoma, Dysplasia::high_grade},
    }};
    std::vector<Histology> all;
    for (const auto& [type, dysplasia] : found) {
      for (const Margin margin : {Margin::clear, Margin::involved}) {
        all.push_back({Fact<LesionType>::known(type),
                       Fact<Dysplasia>::known(dysplasia),
                       Fact<Margin>::known(margin),
                       {}});
      }
    }
    return all;
  }();
  return kinds;
}

/// The plan when it is the same whatever the histology of `taken` from `next` on.
std::optional<Plan> common_plan(const Record& record, std::vector<Taken>& taken, std::size_t next) {
  if (next == taken.size()) return Patient2020(record, taken).plan();
  std::optional<Plan> common;
  for (const Histology& kind : kinds_of_histology()) {
    taken[next].histology = &kind;
    const std::optional<Plan> plan = common_plan(record, taken, next + 1);
    if (!plan || (common && *common != *plan)) return std::nullopt;
    common = plan;
  }
  return common;
}

}  // namespace

std::optional<Plan> hand_written_uk_2020(const Record& record) {
  std::vector<Taken> open;
  const auto look_at = [&](const Examination& exam) {
    for (const Lesion& lesion : exam.lesions) {
      if (!is_known(lesion.histology)) open.push_back({&lesion, nullptr});
    }
  };
  look_at(record.exam);
  if (record.previous) std::for_each(record.previous->begin(), record.previous->end(), look_at);
  const std::optional<Plan> plan = common_plan(record, open, 0);
  if (!plan && record.exam.awaits_histology()) return Plan{Action::await_pathology, {}, "pathology-gate"};
  return plan;
}

}  // namespace testing
