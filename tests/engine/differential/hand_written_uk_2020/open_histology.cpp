#include "engine/differential/hand_written_uk_2020/open_histology.h"

#include <algorithm>
#include <initializer_list>
#include <utility>

namespace testing::by_hand {

bool is_known(const Histology& histology) {
  return histology.type.is_known() && histology.dysplasia.is_known() && histology.margin.is_known();
}

std::vector<Taken> without_histology(const Record& record) {
  std::vector<Taken> open;
  const auto look_at = [&](const Examination& exam) {
    for (const Lesion& lesion : exam.lesions) {
      if (!lesion.histology || !is_known(*lesion.histology)) open.push_back({&lesion, nullptr});
    }
  };
  look_at(record.exam);
  if (record.previous) std::for_each(record.previous->begin(), record.previous->end(), look_at);
  return open;
}

namespace {

/// Each with clear and with involved margins.
std::vector<Histology> kinds(std::initializer_list<std::pair<LesionType, Dysplasia>> found) {
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
}

}  // namespace

const std::vector<Histology>& kinds_for_a_plan() {
  static const std::vector<Histology> all =
      kinds({{LesionType::tubular_adenoma, Dysplasia::low_grade},
             {LesionType::tubular_adenoma, Dysplasia::high_grade},
             {LesionType::sessile_serrated_lesion, Dysplasia::none},
             {LesionType::sessile_serrated_lesion, Dysplasia::low_grade},
             {LesionType::hyperplastic_polyp, Dysplasia::none},
             {LesionType::normal_mucosa, Dysplasia::none},
             {LesionType::adenocarcinoma, Dysplasia::high_grade}});
  return all;
}

const std::vector<Histology>& kinds_for_an_answer() {
  static const std::vector<Histology> all =
      kinds({{LesionType::tubular_adenoma, Dysplasia::low_grade},
             {LesionType::tubular_adenoma, Dysplasia::high_grade},
             {LesionType::sessile_serrated_lesion, Dysplasia::none},
             {LesionType::sessile_serrated_lesion, Dysplasia::low_grade},
             {LesionType::traditional_serrated_adenoma, Dysplasia::none},
             {LesionType::traditional_serrated_adenoma, Dysplasia::low_grade},
             {LesionType::hyperplastic_polyp, Dysplasia::none},
             {LesionType::unclassified_serrated_polyp, Dysplasia::none},
             {LesionType::unclassified_serrated_polyp, Dysplasia::low_grade},
             {LesionType::normal_mucosa, Dysplasia::none},
             {LesionType::adenocarcinoma, Dysplasia::high_grade}});
  return all;
}

}  // namespace testing::by_hand
