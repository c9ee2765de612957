// Source of the order: common practice (a site check of a large piecemeal resection first, then hereditary
// syndromes, high-risk colitis, dysplasia).

#include "risk.h"

#include <algorithm>
#include <array>

namespace ledger {

namespace {

constexpr std::array<std::string_view, 5> texts = {"site check", "hereditary", "high-risk colitis",
                                                   "dysplasia", "usual"};

bool is_hereditary(const engine::Condition& condition) {
  using enum engine::ConditionName;
  return condition.name == lynch_syndrome || condition.name == familial_adenomatous_polyposis ||
         condition.name == mutyh_associated_polyposis || condition.name == serrated_polyposis_syndrome;
}

bool is_high_risk_colitis(const engine::Condition& condition) {
  using enum engine::ConditionName;
  if (condition.name == primary_sclerosing_cholangitis) return true;
  if (condition.name != ulcerative_colitis && condition.name != crohns_colitis) return false;
  const bool active = condition.activity && *condition.activity >= engine::Activity::moderate;
  return active || condition.stricture.value_or(false) || condition.dysplasia_within_5_years.value_or(false);
}

bool is_dysplastic(const engine::Lesion& lesion) {
  if (!lesion.histology) return false;
  const auto& [type, dysplasia, margin, size] = *lesion.histology;
  return (dysplasia.is_known() && dysplasia.value == engine::Dysplasia::high_grade) ||
         (type.is_known() && type.value == engine::LesionType::adenocarcinoma);
}

template <class List, class Test>
bool any(const List& list, Test test) {
  return std::any_of(list.begin(), list.end(), test);
}

}  // namespace

std::string_view text_of(Risk risk) {
  return texts.at(static_cast<std::size_t>(risk));
}

std::optional<Risk> risk_of(std::string_view text) {
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (texts[i] == text) return static_cast<Risk>(i);
  }
  return std::nullopt;
}

Risk risk_of(const engine::Record& record, std::optional<engine::Action> action) {
  if (action == engine::Action::site_check) return Risk::site_check;
  const auto& conditions = record.patient.conditions;
  if (conditions && any(*conditions, is_hereditary)) return Risk::hereditary;
  if (conditions && any(*conditions, is_high_risk_colitis)) return Risk::high_risk_colitis;
  if (any(record.exam.lesions, is_dysplastic)) return Risk::dysplasia;
  return Risk::usual;
}

}  // namespace ledger
