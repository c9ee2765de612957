#include "engine/differential/hand_written_uk_2020/flags.h"

#include <algorithm>

#include "engine/differential/hand_written_uk_2020/sentences.h"

namespace testing::by_hand {

namespace {

class Flags {
 public:
  Flags(const Patient2020& patient, const JudgedSteps& steps, AdviceWriter& writer)
      : patient_(patient), steps_(steps), writer_(writer) {}

  // In the order in which they are shown.
  void write() {
    write_age();
    write_lesions();
    write_genetic_assessment();
    write_histology();
    write_examination();
    write_sites();
    write_limits();
    write_rest();
  }

 private:
  template <class Wanted>
  bool some_lesion(Wanted wanted) const {
    return std::any_of(patient_.exam.lesions.begin(), patient_.exam.lesions.end(), wanted);
  }
  template <class Wanted>
  bool some_site(Wanted wanted) const {
    return std::any_of(patient_.sites.begin(), patient_.sites.end(), wanted);
  }
  bool some_reported(LesionType type) const {
    return some_lesion([&](const Lesion& l) { return can_be_reported(l) && patient_.type(l) == type; });
  }

  void write_age() {
    if (!steps_.age_near_limit) return;
    writer_.flag(Row::age_near_limit, "age near the limit",
                 joined({"aged ", std::to_string(*steps_.age_near_limit),
                         " when the examination falls due: the limit of about 75 leaves leeway, so confirm "
                         "the decision"}));
  }

  void write_lesions() {
    if (some_lesion([](const Lesion& l) {
          return l.paris.value == Paris::isp && l.size.value >= 10_mm && was_removed(l);
        }))
      writer_.flag(Row::maybe_pedunculated, "ask whether pedunculated",
                   "a removed polyp of 10 mm or more is recorded as 0-Isp: ask the endoscopist whether it "
                   "was pedunculated; it is taken as non-pedunculated");
    if (some_lesion([](const Lesion& l) {
          return l.histology && l.histology->size.is_known() &&
                 straddles(l.size.value, l.histology->size.value);
        }))
      writer_.flag(Row::sizes_differ, "sizes differ across a limit",
                   "endoscopist and pathologist measured a polyp on different sides of 5/6, 9/10 or 19/20 "
                   "mm: the endoscopist's size is used");
    if (some_lesion([](const Lesion& l) { return was_removed(l) && !l.retrieved.value; }))
      writer_.flag(Row::not_retrieved, "polyp not retrieved",
                   "a removed polyp was not retrieved, so its histology will not be known: the answer either "
                   "holds whatever it was, or asks");
  }

  static bool straddles(Millimetres one, Millimetres other) {
    return (one <= 5_mm) != (other <= 5_mm) || (one >= 10_mm) != (other >= 10_mm) ||
           (one >= 20_mm) != (other >= 20_mm);
  }

  void write_genetic_assessment() {
    const int adenomas = polyps(patient_.ever, [&](const Lesion& l) { return is_adenoma(patient_.type(l)); });
    if (adenomas < 10) return;
    writer_.flag(Row::genetic_assessment, "genetic assessment",
                 std::to_string(adenomas) +
                     " adenomas over all examinations: refer for genetic assessment (multiple colorectal "
                     "adenomas, uk-hereditary-2020) besides the polyp surveillance");
  }

  void write_histology() {
    if (some_lesion([&](const Lesion& l) {
          return can_be_reported(l) && patient_.type(l) == LesionType::traditional_serrated_adenoma &&
                 patient_.histology(l).dysplasia.value == Dysplasia::none;
        }))
      writer_.flag(Row::traditional_serrated, "traditional serrated adenoma",
                   "a traditional serrated adenoma recorded without dysplasia is counted as dysplastic, "
                   "hence advanced");
    if (some_reported(LesionType::unclassified_serrated_polyp))
      writer_.flag(Row::unclassified_serrated, "unclassified serrated polyp",
                   "an unclassified serrated polyp is counted as a serrated polyp");
    if (some_lesion([&](const Lesion& l) {
          return l.site.value == Segment::rectosigmoid && l.size.value <= 5_mm && can_be_reported(l) &&
                 patient_.type(l) == LesionType::hyperplastic_polyp;
        }))
      writer_.flag(Row::rectosigmoid_hyperplastic, "rectosigmoid hyperplastic polyp",
                   "a rectosigmoid hyperplastic polyp of 5 mm or less is counted: only the rectum is "
                   "excepted; if it lay in the rectum, correct the site");
  }

  void write_examination() {
    const Examination& exam = patient_.exam;
    if (patient_.patient.family_history.value_or(FamilyHistory::none) != FamilyHistory::none ||
        exam.indication.value == Indication::family_history)
      writer_.flag(Row::family_history, "family history",
                   "a family history of colorectal cancer is on record: ask uk-hereditary-2020 too and take "
                   "the earlier date");
    if (!patient_.risk.high && patient_.steps.empty() && has_advanced_serrated())
      writer_.flag(Row::serrated_guideline_differs, "BSG 2017 differs",
                   "a single serrated polyp of 10 mm or more or with dysplasia gets no surveillance here; "
                   "BSG 2017 (doi:10.1136/gutjnl-2017-314005) offered one colonoscopy at 3 years, a weak "
                   "recommendation which the later 2020 guideline replaces");
    if (!exam.graded.is_known() && !well_prepared(exam))
      writer_.flag(Row::boston_threshold, "Boston threshold",
                   "preparation is judged inadequate by Boston below 2 in a segment, which is not a UK rule: "
                   "the endoscopist may judge otherwise");
    if (patient_.together.size() > 1)
      writer_.flag(Row::taken_together, "examinations taken together",
                   joined({std::to_string(patient_.together.size()), " examinations from ",
                           text_of(patient_.together.front()->date), " to ",
                           text_of(patient_.reference->date), " are taken together as one baseline"}));
  }

  bool has_advanced_serrated() const {
    return std::any_of(patient_.findings.begin(), patient_.findings.end(), [&](const Lesion* l) {
      return is_serrated(patient_.type(*l)) && patient_.advanced(*l);
    });
  }

  void write_sites() {
    const Examination& exam = patient_.exam;
    if (!patient_.is_at_site_check && some_site([](const SiteOfResection& s) {
          return s.looked_at_now && (s.closed_now || s.stage != Stage::closed);
        }))
      writer_.flag(Row::taken_as_site_check, "taken as a site check",
                   "this examination is taken to have looked at an earlier resection site: confirm that the "
                   "scar was seen and clear");
    if (patient_.is_at_site_check && some_site([&](const SiteOfResection& s) {
          return s.day < exam.date && !patient_.looked_at(exam, s.lesion->site.value, s.day);
        }))
      writer_.flag(Row::site_not_seen, "site not seen",
                   "this site check does not count for a resection on record: it did not reach the site or "
                   "the preparation was inadequate, so the check is still due");
    if (some_lesion([&](const Lesion& l) {
          return patient_.owes_site_check(l) && can_be_reported(l) && is_not_neoplastic(patient_.type(l));
        }))
      writer_.flag(Row::not_neoplastic, "not neoplastic",
                   "histology of the large polyp is not neoplastic: the definition asks for size and shape "
                   "only, so a site check is given; the clinician may judge it unnecessary");
    if (patient_.resected && exam.reached.value == Segment::anastomosis)
      writer_.flag(Row::anastomosis, "anastomosis",
                   "reaching the anastomosis is taken as a complete examination: true only when the right "
                   "colon was removed, so confirm");
    if (some_site([](const SiteOfResection& s) { return s.stage == Stage::recurrence_treated; }))
      writer_.flag(Row::individualise, "individualise",
                   "recurrence at a resection site: what was read of the guideline does not answer this, so "
                   "the clinician confirms or changes the new check");
  }

  static bool is_not_neoplastic(LesionType type) {
    return type == LesionType::inflammatory_polyp || type == LesionType::hamartoma ||
           type == LesionType::normal_mucosa;
  }

  void write_limits() {
    if (patient_.after_cancer == AfterCancer::clearance_due &&
        patient_.stopped_on(plus(*patient_.resection, 12)))
      writer_.flag(Row::limits_after_cancer, "limits after cancer",
                   "past about 75 or life expectancy under 10 years: whether the limits of polyp "
                   "surveillance also end the one-year clearance is from memory, so it is given and the "
                   "clinician decides");
    const bool site_check_due = std::any_of(steps_.open.begin(), steps_.open.end(), [](const Step* s) {
      return !s->limited && s->action == Action::site_check;
    });
    if (site_check_due && (patient_.short_life() || patient_.age > 75))
      writer_.flag(Row::site_check_past_limits, "site check past the limits",
                   "past about 75 or life expectancy under 10 years: the limits are those of the 3-year "
                   "examination, so the site check stands; weigh its burden");
  }

  void write_rest() {
    if (const Examination* earlier = earlier_plan())
      writer_.flag(Row::earlier_plan, "earlier plan",
                   joined({"the examination of ", text_of(earlier->date),
                           " called for colonoscopy at 3 years; the last complete examination decides and "
                           "calls for none: confirm that the earlier date is given up"}));
    if (!reaches_the_end(patient_.exam, patient_.resected) && !patient_.is_at_site_check)
      writer_.flag(Row::no_faecal_test, "no faecal test instead",
                   "a faecal immunochemical test does not replace the colonoscopy or surveillance outside "
                   "trials (from memory)");
    const Setting& setting = patient_.setting;
    if (!setting.screening_from_age && setting.nation && !is_of_the_kingdom(*setting.nation))
      writer_.flag(Row::nation_not_known, "nation not known",
                   joined({"the screening age of ", *setting.nation,
                           " is not held here: 50 is used unless the unit sets its own"}));
  }

  static bool is_of_the_kingdom(std::string_view nation) {
    return nation == "England" || nation == "Scotland" || nation == "Wales" || nation == "Northern Ireland";
  }

  /// The first examination of the last two years that called for colonoscopy where the present calls for
  /// none.
  const Examination* earlier_plan() const {
    if (patient_.is_at_site_check || patient_.risk.high || !patient_.steps.empty()) return nullptr;
    const Date since = plus(patient_.exam.date, -24), until = patient_.first_together();
    for (const Examination* earlier : patient_.ordinary) {
      if (earlier->date >= since && earlier->date < until && called_for_surveillance(*earlier))
        return earlier;
    }
    return nullptr;
  }
  bool called_for_surveillance(const Examination& earlier) const {
    if (patient_.risk_of(counted({&earlier})).high) return true;
    return std::any_of(earlier.lesions.begin(), earlier.lesions.end(),
                       [&](const Lesion& l) { return patient_.is_large_r0(l); });
  }

  const Patient2020& patient_;
  const JudgedSteps& steps_;
  AdviceWriter& writer_;
};

}  // namespace

void write_flags(const Patient2020& patient, const JudgedSteps& steps, AdviceWriter& writer) {
  Flags(patient, steps, writer).write();
}

}  // namespace testing::by_hand
