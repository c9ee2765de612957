#include "engine/differential/record_generator.h"

#include <string>

namespace testing {

using namespace engine;

Record RecordGenerator::record() {
  Record record;
  Date day{2018 + below(4), static_cast<std::uint8_t>(1 + below(12)),
           static_cast<std::uint8_t>(1 + below(28))};
  record.previous.emplace();
  for (int i = below(4); i > 0; --i) {
    record.previous->push_back(exam(day));
    day = *date_from_days(days_since_epoch(day) + one_of({20, 61, 89, 90, 91, 93, 182, 200, 365, 366, 380,
                                                          400, 548, 549, 560, 730, 731, 800, 1200}));
  }
  record.exam = exam(day);
  record.patient.birth_date = Date{one_of({1944, 1950, 1961, 1975, 1985, 2004}), 5, 4};
  record.patient.conditions.emplace();
  if (one_in(4)) add_resection(record, day);
  add_background(record);
  return record;
}

void RecordGenerator::add_resection(Record& record, const Date& day) {
  Condition resected;
  resected.name = ConditionName::colorectal_cancer_resected;
  if (!one_in(6))
    resected.resection_date = date_from_days(days_since_epoch(day) - one_of({30, 100, 370, 500, 1200}));
  record.patient.conditions->push_back(resected);
}

void RecordGenerator::add_background(Record& record) {
  if (one_in(40)) {
    Condition other;
    other.name =
        static_cast<ConditionName>(below(static_cast<int>(ConditionName::colorectal_cancer_resected)));
    record.patient.conditions->push_back(other);
  }
  record.patient.life_expectancy_under_10_years = one_in(12);
  record.patient.family_history = one_in(8) ? FamilyHistory::moderate : FamilyHistory::none;
  if (one_in(4)) record.setting.nation = one_of<std::string>({"Scotland", "Northern Ireland", "France"});
  if (one_in(8)) record.setting.screening_from_age = one_of({45, 60});
}

Examination RecordGenerator::exam(const Date& day) {
  Examination exam;
  exam.date = day;
  exam.indication =
      Fact<Indication>::known(one_of({Indication::screening, Indication::surveillance, Indication::symptoms,
                                      Indication::site_check, Indication::cancer_follow_up}));
  if (one_in(30))
    exam.indication =
        Fact<Indication>::known(one_of({Indication::family_history, Indication::bowel_disease_surveillance}));
  exam.procedure =
      Fact<Procedure>::known(one_of({Procedure::colonoscopy, Procedure::colonoscopy, Procedure::colonoscopy,
                                     Procedure::flexible_sigmoidoscopy, Procedure::ct_colonography}));
  exam.reached =
      Fact<Segment>::known(one_of({Segment::caecum, Segment::caecum, Segment::caecum, Segment::terminal_ileum,
                                   Segment::sigmoid_colon, Segment::anastomosis}));
  add_preparation(exam);
  if (one_in(10)) exam.cleared = Fact<bool>::known(one_in(2));
  for (int i = below(6); i > 0; --i) exam.lesions.push_back(lesion());
  return exam;
}

void RecordGenerator::add_preparation(Examination& exam) {
  if (one_in(4)) {
    const auto score = [&] { return Fact<std::int32_t>::known(one_in(6) ? 1 : 2 + below(2)); };
    exam.boston = Boston{score(), score(), score()};
  }
  if (!exam.boston || one_in(6))
    exam.graded = Fact<Grade>::known(
        one_of({Grade::good, Grade::adequate, Grade::fair, Grade::excellent, Grade::poor}));
}

Lesion RecordGenerator::lesion() {
  Lesion lesion;
  lesion.site = Fact<Segment>::known(one_of({Segment::rectum, Segment::rectosigmoid, Segment::sigmoid_colon,
                                             Segment::transverse_colon, Segment::caecum}));
  lesion.size = Fact<Millimetres>::known(one_of({3_mm, 5_mm, 6_mm, 9_mm, 10_mm, 15_mm, 20_mm, 30_mm}));
  if (one_in(10)) lesion.size.value.tenths -= 5;
  lesion.paris = Fact<Paris>::known(one_of({Paris::ip, Paris::isp, Paris::is, Paris::iia}));
  lesion.removal =
      Fact<Removal>::known(one_of({Removal::en_bloc, Removal::en_bloc, Removal::en_bloc, Removal::piecemeal,
                                   Removal::biopsy_only, Removal::not_removed}));
  lesion.retrieved = Fact<bool>::known(true);
  lesion.number = Fact<std::int32_t>::known(one_in(8) ? 3 : 1);
  lesion.histology = histology();
  return lesion;
}

Histology RecordGenerator::histology() {
  const LesionType type =
      one_in(40) ? LesionType::adenocarcinoma
                 : one_of({LesionType::tubular_adenoma, LesionType::tubular_adenoma,
                           LesionType::villous_adenoma, LesionType::sessile_serrated_lesion,
                           LesionType::traditional_serrated_adenoma, LesionType::hyperplastic_polyp,
                           LesionType::normal_mucosa, LesionType::unclassified_serrated_polyp});
  const Dysplasia dysplasia =
      one_of({Dysplasia::none, Dysplasia::low_grade, Dysplasia::low_grade, Dysplasia::high_grade});
  const Margin margin = one_of({Margin::clear, Margin::clear, Margin::involved, Margin::not_assessable});
  Histology found{
      Fact<LesionType>::known(type), Fact<Dysplasia>::known(dysplasia), Fact<Margin>::known(margin), {}};
  if (one_in(8)) found.size = Fact<Millimetres>::known(one_of({4_mm, 8_mm, 12_mm, 22_mm}));
  return found;
}

Record RecordGenerator::record_with_gaps() {
  Record record = RecordGenerator::record();
  leave_out_background(record);
  bool one_is_open = !one_in(3);
  leave_out_histology(record.exam, one_is_open);
  if (record.previous) {
    for (Examination& earlier : *record.previous) leave_out_histology(earlier, one_is_open);
  }
  return record;
}

void RecordGenerator::leave_out_background(Record& record) {
  if (record.patient.conditions->empty() && one_in(2)) record.patient.conditions.reset();
  if (record.previous->empty() && one_in(2)) record.previous.reset();
  if (one_in(2)) record.patient.family_history.reset();
  if (one_in(2)) record.patient.life_expectancy_under_10_years.reset();
}

void RecordGenerator::leave_out_histology(Examination& exam, bool& one_is_open) {
  for (Lesion& lesion : exam.lesions) {
    const bool is_left = lesion.removal.value == Removal::not_removed;
    if (!is_left && (one_is_open || !one_in(4))) continue;
    one_is_open = one_is_open || !is_left;
    lesion.retrieved.value = !is_left && one_in(4);
    lesion.histology.reset();
  }
}

}  // namespace testing
