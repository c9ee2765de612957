#include "engine/representative.h"

#include <algorithm>

#include "representative/lines.h"
#include "representative/ordinary.h"

namespace engine {

namespace {

using Findings = std::vector<Lesion>;

constexpr PolypKind tubular{LesionType::tubular_adenoma, Dysplasia::low_grade};
constexpr PolypKind serrated{LesionType::sessile_serrated_lesion, Dysplasia::none};

template <class T>
void put(Fact<T>& fact, T value) {
  fact = Fact<T>::known(value);
}

std::int64_t unusual(const Lesion& lesion) {
  std::int64_t count = static_cast<std::int64_t>(lesion.histology ? lesion.histology->type.value : LesionType{});
  if (lesion.histology && lesion.histology->dysplasia.value == Dysplasia::high_grade) count += 20;
  if (lesion.histology && lesion.histology->margin.value != Margin::clear) count += 40;
  if (lesion.removal.value != Removal::en_bloc) count += 40;
  if (lesion.site.value != Segment::sigmoid_colon) count += 10;
  if (lesion.paris.value != Paris::is) count += 10;
  return count;
}

void add(const std::vector<Lesion>& lesions, Complexity& complexity) {
  for (const Lesion& lesion : lesions) {
    ++complexity.entries;
    complexity.polyps += lesion.number.value;
    complexity.size += lesion.size.value.tenths;
    complexity.unusual += unusual(lesion);
  }
}

class Generator {
 public:
  Generator(const Lines& lines, const std::function<void(const RepresentativeRecord&)>& use)
      : lines_(lines), use_(use) {}

  void everything() {
    one_kind();
    two_kinds();
    removals();
    earlier_examinations();
    circumstances();
    ages();
  }

 private:
  void give(const Record& record, std::int64_t circumstances = 0) {
    Complexity complexity;
    complexity.circumstances = circumstances;
    add(record.exam.lesions, complexity);
    if (record.previous) {
      for (const Examination& earlier : *record.previous) add(earlier.lesions, complexity);
    }
    use_({record, complexity});
  }

  void one_kind() {
    give(ordinary_record({}));
    for (const PolypKind& kind : polyp_kinds()) {
      for (const int size : lines_.sizes) {
        for (const int count : lines_.counts) give(ordinary_record({polyps(count, kind, size)}));
        for (const Segment site : {Segment::caecum, Segment::transverse_colon, Segment::rectum}) {
          for (const int count : {1, 2, 3, 5}) give(ordinary_record({polyps(count, kind, size, site)}));
        }
      }
    }
    for (const PolypKind& kind : {tubular, serrated}) {  // one larger than the others
      for (const int size : lines_.sizes) {
        for (const int count : {1, 2, 3, 4, 9}) give(ordinary_record({polyps(count, kind, 4), polyps(1, kind, size)}));
      }
    }
  }

  void two_kinds() {
    const auto& kinds = polyp_kinds();
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      for (std::size_t k = i + 1; k < kinds.size(); ++k) {
        for (const int first_size : {6, 12}) {
          for (const int second_size : {6, 12}) {
            for (const int count : {1, 2, 4}) {
              give(ordinary_record({polyps(count, kinds[i], first_size), polyps(1, kinds[k], second_size)}));
              if (count > 1)
                give(ordinary_record({polyps(1, kinds[i], first_size), polyps(count, kinds[k], second_size)}));
            }
          }
        }
      }
    }
  }

  void removals() {
    struct Way {
      Removal removal;
      Margin margin;
    };
    constexpr Way ways[] = {{Removal::en_bloc, Margin::clear},        {Removal::en_bloc, Margin::involved},
                            {Removal::en_bloc, Margin::not_assessable}, {Removal::piecemeal, Margin::not_assessable},
                            {Removal::piecemeal, Margin::involved},   {Removal::biopsy_only, Margin::not_assessable},
                            {Removal::not_removed, Margin::clear}};
    const PolypKind several[] = {tubular, {LesionType::tubular_adenoma, Dysplasia::high_grade}, serrated,
                                 {LesionType::adenocarcinoma, Dysplasia::high_grade}};
    for (const PolypKind& kind : several) {
      for (const int size : lines_.sizes) {
        for (const Way& way : ways) {
          for (const Paris paris : {Paris::is, Paris::ip, Paris::iia}) {
            for (const Segment site : {Segment::sigmoid_colon, Segment::rectum})
              give(ordinary_record({removed(polyps(1, kind, size, site), way.removal, way.margin, paris)}));
          }
        }
      }
    }
    for (const PolypKind& kind : {tubular, serrated}) {
      Lesion lost = polyps(1, kind, 6);
      put(lost.retrieved, false);
      lost.histology.reset();
      give(ordinary_record({lost}));
    }
  }

  static Lesion removed(Lesion lesion, Removal removal, Margin margin, Paris paris) {
    put(lesion.paris, paris);
    put(lesion.removal, removal);
    put(lesion.histology->margin, margin);
    if (removal == Removal::not_removed) {
      put(lesion.retrieved, false);
      lesion.histology.reset();
    }
    return lesion;
  }

  void earlier_examinations() {
    const std::vector<Findings> common = common_findings();
    for (const int years : {1, 3, 5}) {
      for (const Findings& before : common) {
        for (const Findings& now : common) {
          give(after({{years, before}}, now), 1);
          if (years == 3 && before.size() < 2) {
            give(after({{6, before}, {3, {}}}, now), 2);
            give(after({{6, before}, {3, {polyps(1, tubular, 6)}}}, now), 2);
          }
        }
      }
    }
    for (const int size : lines_.sizes) {  // a site check
      Record record = after({{0, {removed(polyps(1, tubular, size), Removal::piecemeal, Margin::not_assessable, Paris::iia)}}}, {});
      put(record.exam.indication, Indication::site_check);
      give(record, 1);
    }
  }

  struct Earlier {
    int years_before;  ///< 0 stands for four months.
    Findings findings;
  };

  static Record after(const std::vector<Earlier>& earlier, const Findings& now) {
    Record record = ordinary_record(now);
    put(record.exam.indication, Indication::surveillance);
    for (const Earlier& one : earlier) {
      const Months months{one.years_before == 0 ? 4 : 12 * one.years_before};
      const Date day = engine::add(ordinary_day, Months{-months.count}).value_or(ordinary_day);
      record.previous->push_back(ordinary_examination(day, one.findings));
      record.previous->back().id = "E0-" + std::to_string(record.previous->size());
    }
    return record;
  }

  // Each ordinary in all but one respect, with findings that most guidelines tell apart.
  void circumstances() {
    for (const Findings& findings : common_findings()) {
      const Record ordinary = ordinary_record(findings);
      for (const auto& change : changes()) {
        Record record = ordinary;
        change(record);
        give(record, 1);
      }
    }
  }

  static std::vector<std::function<void(Record&)>> changes() {
    std::vector<std::function<void(Record&)>> changes;
    for (const Grade grade : {Grade::excellent, Grade::good, Grade::fair, Grade::poor, Grade::adequate, Grade::inadequate}) {
      changes.push_back([grade](Record& record) {
        record.exam.boston.reset();
        put(record.exam.graded, grade);
      });
    }
    for (const int score : {0, 1, 2}) {
      changes.push_back([score](Record& record) { put(record.exam.boston->right, score); });
      changes.push_back([score](Record& record) {
        for (auto* segment : {&record.exam.boston->right, &record.exam.boston->transverse, &record.exam.boston->left})
          put(*segment, score);
      });
    }
    for (const Segment reached : {Segment::transverse_colon, Segment::sigmoid_colon})
      changes.push_back([reached](Record& record) { put(record.exam.reached, reached); });
    for (const Procedure procedure : {Procedure::flexible_sigmoidoscopy, Procedure::ct_colonography})
      changes.push_back([procedure](Record& record) { put(record.exam.procedure, procedure); });
    for (const Indication indication : {Indication::screening, Indication::family_history,
                                        Indication::bowel_disease_surveillance, Indication::cancer_follow_up})
      changes.push_back([indication](Record& record) { put(record.exam.indication, indication); });
    changes.push_back([](Record& record) { put(record.exam.cleared, false); });
    changes.push_back([](Record& record) { record.patient.life_expectancy_under_10_years = true; });
    changes.push_back([](Record& record) { record.setting.organised_screening = false; });
    changes.push_back([](Record& record) { record.setting.adenoma_detection_adequate = false; });
    changes.push_back([](Record& record) { record.setting.nation = "Scotland"; });
    for (const FamilyHistory history : {FamilyHistory::moderate, FamilyHistory::high})
      changes.push_back([history](Record& record) { record.patient.family_history = history; });
    for (const int age : {45, 65}) {
      changes.push_back([age](Record& record) { record.patient.relatives->push_back({1, "colorectal", age}); });
    }
    add_conditions(changes);
    return changes;
  }

  static void add_conditions(std::vector<std::function<void(Record&)>>& changes) {
    for (const ConditionName name :
         {ConditionName::familial_adenomatous_polyposis, ConditionName::mutyh_associated_polyposis,
          ConditionName::serrated_polyposis_syndrome, ConditionName::primary_sclerosing_cholangitis}) {
      changes.push_back([name](Record& record) { with_condition(record, name); });
    }
    for (const char* gene : {"MLH1", "MSH2", "MSH6", "PMS2", "EPCAM"}) {
      changes.push_back([gene](Record& record) { with_condition(record, ConditionName::lynch_syndrome).gene = gene; });
    }
    for (const int years : {1, 4, 9}) {
      changes.push_back([years](Record& record) {
        with_condition(record, ConditionName::colorectal_cancer_resected).resection_date =
            Date{ordinary_day.year - years, 3, 1};
      });
    }
    add_colitis(changes);
  }

  static void add_colitis(std::vector<std::function<void(Record&)>>& changes) {
    for (const ConditionName name : {ConditionName::ulcerative_colitis, ConditionName::crohns_colitis}) {
      for (const Extent extent : {Extent::proctitis, Extent::left_sided, Extent::extensive}) {
        for (const Activity activity : {Activity::none, Activity::mild, Activity::moderate, Activity::severe}) {
          changes.push_back([name, extent, activity](Record& record) { colitis(record, name, extent, activity); });
        }
      }
    }
    const auto extensive = [](Record& record) -> Condition& {
      return colitis(record, ConditionName::ulcerative_colitis, Extent::extensive, Activity::none);
    };
    changes.push_back([extensive](Record& record) { extensive(record).post_inflammatory_polyps = true; });
    changes.push_back([extensive](Record& record) { extensive(record).stricture = true; });
    changes.push_back([extensive](Record& record) { extensive(record).dysplasia_within_5_years = true; });
    changes.push_back([extensive](Record& record) {
      extensive(record);
      with_condition(record, ConditionName::primary_sclerosing_cholangitis);
    });
  }

  static Condition& with_condition(Record& record, ConditionName name) {
    Condition condition;
    condition.name = name;
    condition.post_inflammatory_polyps = false;
    condition.stricture = false;
    condition.dysplasia_within_5_years = false;
    record.patient.conditions->push_back(condition);
    return record.patient.conditions->back();
  }

  static Condition& colitis(Record& record, ConditionName name, Extent extent, Activity activity) {
    Condition& condition = with_condition(record, name);
    condition.onset = "2010";
    condition.extent = extent;
    condition.activity = activity;
    return condition;
  }

  void ages() {
    for (const Findings& findings : common_findings()) {
      for (const int age : lines_.ages) {
        Record record = ordinary_record(findings);
        make_aged(record, age);
        give(record, 1);
      }
    }
  }

  const Lines& lines_;
  const std::function<void(const RepresentativeRecord&)>& use_;
};

}  // namespace

void each_representative_record(std::span<const Decimal> numbers,
                                const std::function<void(const RepresentativeRecord&)>& use) {
  const Lines lines = lines_of(numbers);
  Generator(lines, use).everything();
}

Date representative_day() {
  return ordinary_day;
}

}  // namespace engine
