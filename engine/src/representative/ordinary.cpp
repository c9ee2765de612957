#include "representative/ordinary.h"

namespace engine {

namespace {

constexpr PolypKind tubular{LesionType::tubular_adenoma, Dysplasia::low_grade};
constexpr PolypKind serrated{LesionType::sessile_serrated_lesion, Dysplasia::none};

Fact<std::int32_t> known(std::int32_t value) {
  return Fact<std::int32_t>::known(value);
}

}  // namespace

const std::vector<PolypKind>& polyp_kinds() {
  static const std::vector<PolypKind> kinds = [] {
    std::vector<PolypKind> made;
    for (const auto type :
         {LesionType::tubular_adenoma, LesionType::tubulovillous_adenoma, LesionType::villous_adenoma}) {
      made.push_back({type, Dysplasia::low_grade});
      made.push_back({type, Dysplasia::high_grade});
    }
    for (const auto type : {LesionType::sessile_serrated_lesion, LesionType::traditional_serrated_adenoma,
                            LesionType::unclassified_serrated_polyp, LesionType::hyperplastic_polyp}) {
      made.push_back({type, Dysplasia::none});
      made.push_back({type, Dysplasia::low_grade});
      made.push_back({type, Dysplasia::high_grade});
    }
    made.pop_back();  // a hyperplastic polyp has no dysplasia: with it, it is another lesion
    made.pop_back();
    for (const auto type : {LesionType::inflammatory_polyp, LesionType::hamartoma, LesionType::normal_mucosa})
      made.push_back({type, Dysplasia::none});
    made.push_back({LesionType::adenocarcinoma, Dysplasia::high_grade});
    return made;
  }();
  return kinds;
}

Lesion polyps(int number, PolypKind kind, int millimetres, Segment site) {
  Lesion lesion;
  lesion.id = "L1";
  lesion.number = known(number);
  lesion.site = Fact<Segment>::known(site);
  lesion.size = Fact<Millimetres>::known({millimetres * 10});
  lesion.paris = Fact<Paris>::known(Paris::is);
  lesion.removal = Fact<Removal>::known(Removal::en_bloc);
  lesion.retrieved = Fact<bool>::known(true);
  Histology histology;
  histology.type = Fact<LesionType>::known(kind.type);
  histology.dysplasia = Fact<Dysplasia>::known(kind.dysplasia);
  histology.margin = Fact<Margin>::known(Margin::clear);
  lesion.histology = histology;
  return lesion;
}

Examination ordinary_examination(const Date& day, std::vector<Lesion> lesions) {
  Examination exam;
  exam.id = "E1";
  exam.date = day;
  exam.indication = Fact<Indication>::known(Indication::symptoms);
  exam.procedure = Fact<Procedure>::known(Procedure::colonoscopy);
  exam.reached = Fact<Segment>::known(Segment::caecum);
  Boston boston;
  boston.right = boston.transverse = boston.left = known(3);
  exam.boston = boston;
  for (std::size_t i = 0; i < lesions.size(); ++i) lesions[i].id = "L" + std::to_string(i + 1);
  exam.lesions = std::move(lesions);
  return exam;
}

Record ordinary_record(std::vector<Lesion> lesions) {
  Record record;
  record.exam = ordinary_examination(ordinary_day, std::move(lesions));
  record.patient.sex = Sex::female;
  record.patient.conditions.emplace();
  record.patient.relatives.emplace();
  record.patient.family_history = FamilyHistory::none;
  record.patient.life_expectancy_under_10_years = false;
  record.previous.emplace();
  record.setting.organised_screening = true;
  record.setting.adenoma_detection_adequate = true;
  record.setting.nation = "England";
  record.setting.screening_from_age = 50;
  make_aged(record, ordinary_age);
  return record;
}

void make_aged(Record& record, int age) {
  record.patient.birth_date = Date{ordinary_day.year - age, 1, 15};
}

std::vector<std::vector<Lesion>> common_findings() {
  std::vector<std::vector<Lesion>> findings = {{}};
  for (const int number : {1, 2, 3, 5, 11}) findings.push_back({polyps(number, tubular, 6)});
  findings.push_back({polyps(1, tubular, 12)});
  findings.push_back({polyps(2, tubular, 12)});
  findings.push_back({polyps(1, {LesionType::tubulovillous_adenoma, Dysplasia::low_grade}, 6)});
  findings.push_back({polyps(1, {LesionType::tubular_adenoma, Dysplasia::high_grade}, 6)});
  for (const int number : {1, 3}) findings.push_back({polyps(number, serrated, 6)});
  findings.push_back({polyps(1, serrated, 12)});
  findings.push_back({polyps(1, {LesionType::hyperplastic_polyp, Dysplasia::none}, 4)});
  findings.push_back({polyps(1, {LesionType::adenocarcinoma, Dysplasia::high_grade}, 15)});
  return findings;
}

}  // namespace engine
