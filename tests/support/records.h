// Records of invented people, as JSON.

#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace support {

/// A lesion of 8 mm, removed en bloc and retrieved in pot A. `histology` is null while awaited.
inline nlohmann::json a_lesion(const std::string& id, const nlohmann::json& histology) {
  return {{"id", id},        {"site", "sigmoid colon"}, {"size_mm", 8},
          {"paris", "0-Is"}, {"removal", "en bloc"},    {"retrieved", true},
          {"specimen", "A"}, {"histology", histology}};
}

inline nlohmann::json tubular_adenoma() {
  return {{"type", "tubular adenoma"}, {"dysplasia", "low grade"}, {"margin", "clear"}};
}

inline nlohmann::json hyperplastic_polyp() {
  return {{"type", "hyperplastic polyp"}, {"dysplasia", "none"}, {"margin", "clear"}};
}

/// A complete colonoscopy of a woman born 1961-05-04 whose hospital number is `number`.
inline nlohmann::json a_record(const std::string& number, const std::string& exam, const std::string& date,
                               const std::vector<nlohmann::json>& lesions) {
  return {{"patient",
           {{"identifiers", {{{"system", "hospital-number"}, {"value", number}}}},
            {"name", {{"family", "Example"}, {"given", "Ada"}}},
            {"birth_date", "1961-05-04"},
            {"sex", "female"}}},
          {"exam",
           {{"id", exam},
            {"date", date},
            {"indication", "screening"},
            {"procedure", "colonoscopy"},
            {"reached", "caecum"},
            {"preparation", {{"graded", "adequate"}}},
            {"endoscopist", "Dr Invented"},
            {"place", "Example Unit"},
            {"lesions", lesions},
            {"specimens",
             {{{"id", "A"}, {"accession", "26H" + exam}, {"sent", date}},
              {{"id", "B"}, {"accession", "26H" + exam + "B"}, {"sent", date}}}}}}};
}

/// Histology for lesion `lesion` in pot A.
inline nlohmann::json a_result(const std::string& exam, const std::string& lesion,
                               const nlohmann::json& histology) {
  return {{"exam", exam},
          {"specimens", {{{"id", "A"}, {"lesions", {{{"id", lesion}, {"histology", histology}}}}}}},
          {"reported", "2026-03-19"},
          {"reporter", "Dr Made-Up"}};
}

}  // namespace support
