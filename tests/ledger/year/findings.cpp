#include "ledger/year/findings.h"

#include <algorithm>

namespace year {

using nlohmann::json;

namespace {

json lesion(int number, int size, const std::string& type, Dice& dice) {
  static const std::vector<std::string> sites = {"caecum",        "ascending colon",  "transverse colon",
                                                 "sigmoid colon", "descending colon", "rectum"};
  return {{"id", "L" + std::to_string(number)},
          {"site", dice.one_of(sites)},
          {"size_mm", size},
          {"paris", size >= 20 ? "0-IIa" : "0-Is"},
          {"removal", "en bloc"},
          {"retrieved", true},
          {"specimen", number <= 2 ? "A" : "B"},
          {"histology",
           {{"type", type},
            {"dysplasia", type == "hyperplastic polyp" ? "none" : "low grade"},
            {"margin", "clear"}}}};
}

json small_polyps(int count, Dice& dice) {
  static const std::vector<std::string> types = {"tubular adenoma", "tubular adenoma",
                                                 "tubulovillous adenoma", "hyperplastic polyp"};
  json lesions = json::array();
  for (int i = 1; i <= count; ++i) {
    const auto& type =
        dice.one_of(types);  // drawn by itself: which argument is drawn first is the compiler's
    lesions.push_back(lesion(i, dice.between(3, 8), type, dice));
  }
  return lesions;
}

json large_in_pieces(Dice& dice) {
  json lesions = json::array({lesion(1, dice.between(21, 45), "tubulovillous adenoma", dice)});
  lesions[0]["removal"] = "piecemeal";
  lesions[0]["histology"]["margin"] = "not assessable";
  return lesions;
}

/// By a throw of a hundred: mostly nothing or something small, now and then what a unit worries about.
json lesions_of(int thrown, Dice& dice) {
  if (thrown <= 32) return json::array();
  if (thrown <= 58) return small_polyps(dice.between(1, 2), dice);
  if (thrown <= 68) return small_polyps(dice.between(3, 4), dice);
  if (thrown <= 76) return small_polyps(dice.between(5, 6), dice);
  json lesions = small_polyps(dice.between(2, 3), dice);
  lesions[0]["size_mm"] = dice.between(10, 18);
  lesions[0]["histology"]["type"] = "tubulovillous adenoma";
  if (thrown <= 84) return lesions;
  if (thrown <= 94) return large_in_pieces(dice);
  if (thrown <= 96) {
    lesions[0]["size_mm"] = {{"from", 8}, {"to", 12}};
  } else if (thrown <= 98) {
    lesions[0]["histology"] = {{"type", "adenocarcinoma"}, {"margin", "involved"}};
  } else {
    lesions[0]["retrieved"] = false;
    lesions[0]["histology"] = nullptr;
  }
  return lesions;
}

bool is_lost(const json& lesion) {
  return lesion.at("retrieved") == false;
}

}  // namespace

json examination(const std::string& id, const engine::Date& day, const std::string& indication, Dice& dice) {
  static const std::vector<std::string> endoscopists = {"Dr R. Hazelmere", "Mr T. Quince", "Nurse A. Lovage"};
  json exam = {{"id", id},
               {"date", engine::text_of(day)},
               {"indication", indication},
               {"procedure", "colonoscopy"},
               {"reached", dice.percent(97) ? "caecum" : "transverse colon"},
               {"preparation", {{"graded", dice.percent(95) ? "good" : "inadequate"}}},
               {"endoscopist", dice.one_of(endoscopists)},
               {"place", "Room 1"},
               {"lesions", lesions_of(dice.between(1, 100), dice)}};
  for (const std::string& pot : pots_of(exam)) {
    exam["specimens"].push_back(
        {{"id", pot}, {"accession", "26H" + id + pot}, {"sent", engine::text_of(day)}});
  }
  return exam;
}

json awaiting_histology(json exam) {
  for (json& lesion : exam.at("lesions")) lesion["histology"] = nullptr;
  return exam;
}

std::vector<std::string> pots_of(const json& exam) {
  std::vector<std::string> pots;
  for (const json& lesion : exam.at("lesions")) {
    const auto pot = lesion.at("specimen").get<std::string>();
    if (!is_lost(lesion) && std::find(pots.begin(), pots.end(), pot) == pots.end()) pots.push_back(pot);
  }
  return pots;
}

json result_for(const json& exam, const std::vector<std::string>& pots, const engine::Date& reported) {
  json specimens = json::array();
  for (const std::string& pot : pots.empty() ? pots_of(exam) : pots) {
    json lesions = json::array();
    for (const json& lesion : exam.at("lesions")) {
      if (lesion.at("specimen") == pot && !is_lost(lesion))
        lesions.push_back({{"id", lesion.at("id")}, {"histology", lesion.at("histology")}});
    }
    specimens.push_back({{"id", pot}, {"lesions", std::move(lesions)}});
  }
  return {{"exam", exam.at("id")},
          {"specimens", std::move(specimens)},
          {"reported", engine::text_of(reported)},
          {"reporter", "Dr L. Marchmont"}};
}

json reported_otherwise(json exam) {
  json& lesion = exam.at("lesions").at(0);
  if (is_lost(lesion)) return exam;
  const bool was_adenoma = lesion.at("histology").at("type") == "tubular adenoma";
  lesion["histology"] = {{"type", was_adenoma ? "tubulovillous adenoma" : "tubular adenoma"},
                         {"dysplasia", was_adenoma ? "high grade" : "low grade"},
                         {"margin", "clear"}};
  return exam;
}

}  // namespace year
