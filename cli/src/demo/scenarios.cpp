#include "demo/scenarios.h"

#include <vector>

namespace cli {

namespace {

using nlohmann::json;

using F = Findings;
using P = Pathology;

constexpr bool from_due = true;
constexpr bool from_exam = false;

constexpr Scenario all[] = {
    {"clear, signed off to screening", 46, F::none, P::with_the_record, Fate::signed_only, -900, -10,
     from_exam},
    {"small adenoma, signed off", 44, F::one_small_adenoma, P::in_a_week, Fate::signed_only, -900, -25,
     from_exam},
    {"due in some years", 50, F::several_with_a_large_one, P::in_a_week, Fate::signed_only, 80, 1000,
     from_due},
    {"due in some years, six adenomas", 18, F::six_adenomas, P::with_the_record, Fate::signed_only, 80, 1000,
     from_due},
    {"large polyp in one piece", 8, F::large_in_one_piece, P::in_a_week, Fate::signed_only, 80, 1000,
     from_due},
    {"due soon, not yet vetted", 9, F::several_with_a_large_one, P::in_a_week, Fate::signed_only, 1, 41,
     from_due},
    {"due, vetted", 6, F::several_with_a_large_one, P::in_a_week, Fate::vetted, -12, 30, from_due},
    {"due, invited", 7, F::six_adenomas, P::with_the_record, Fate::invited, -30, 20, from_due},
    {"due, booked", 8, F::several_with_a_large_one, P::in_a_week, Fate::booked, -25, 15, from_due},
    {"did not attend", 4, F::several_with_a_large_one, P::in_a_week, Fate::did_not_attend, -30, -5, from_due},
    {"not ready for a time", 2, F::several_with_a_large_one, P::in_a_week, Fate::not_ready, -60, -20,
     from_due},
    {"late, nothing done", 5, F::several_with_a_large_one, P::in_a_week, Fate::signed_only, -190, -43,
     from_due},
    {"late, invited", 4, F::six_adenomas, P::with_the_record, Fate::invited, -120, -43, from_due},
    {"late, did not attend", 3, F::several_with_a_large_one, P::in_a_week, Fate::did_not_attend, -150, -50,
     from_due},
    {"site check due", 5, F::large_in_pieces, P::in_a_week, Fate::vetted, -30, 35, from_due},
    {"site check late", 3, F::large_in_pieces, P::in_a_week, Fate::invited, -110, -44, from_due},
    {"came for the site check", 4, F::large_in_pieces, P::in_a_week, Fate::came, -200, -30, from_due},
    {"came for surveillance", 14, F::several_with_a_large_one, P::in_a_week, Fate::came, -700, -20, from_due},
    {"poor preparation, to be repeated", 6, F::poor_preparation, P::with_the_record, Fate::booked, -100, -40,
     from_exam},
    {"repeat signed", 4, F::poor_preparation, P::with_the_record, Fate::signed_only, -30, -5, from_exam},
    {"closed by a clinician", 3, F::several_with_a_large_one, P::in_a_week, Fate::closed, -200, 10, from_due},
    {"handed over to screening", 2, F::six_adenomas, P::with_the_record, Fate::handed_over, -20, 200,
     from_due},
    {"decided otherwise", 3, F::several_with_a_large_one, P::in_a_week, Fate::decided_otherwise, 100, 900,
     from_due},
    {"died", 2, F::several_with_a_large_one, P::in_a_week, Fate::died, -40, 200, from_due},
    {"moved away", 1, F::six_adenomas, P::with_the_record, Fate::moved_away, -20, 100, from_due},
    {"to be signed", 9, F::several_with_a_large_one, P::in_a_week, Fate::waits_for_signature, -30, -9,
     from_exam},
    {"over 75, to be signed", 2, F::several_with_a_large_one, P::in_a_week, Fate::waits_for_signature, -30,
     -9, from_exam, 76, 84},
    {"stop by age", 4, F::several_with_a_large_one, P::in_a_week, Fate::signed_only, -500, -30, from_exam, 76,
     84},
    {"a size is in doubt", 3, F::size_in_doubt, P::with_the_record, Fate::waits_for_signature, -14, -2,
     from_exam},
    {"outside the guideline", 3, F::lynch_syndrome, P::with_the_record, Fate::waits_for_signature, -40, -5,
     from_exam, 38, 60},
    {"pathology awaited, few days", 7, F::several_with_a_large_one, P::not_yet, Fate::signed_only, -6, -1,
     from_exam},
    {"pathology awaited, amber", 3, F::six_adenomas, P::not_yet, Fate::signed_only, -14, -11, from_exam},
    {"pathology awaited, red", 3, F::several_with_a_large_one, P::not_yet, Fate::signed_only, -33, -16,
     from_exam},
    {"large polyp, pathology awaited", 2, F::large_in_pieces, P::not_yet, Fate::signed_only, -20, -8,
     from_exam},
    {"one pot of two has come", 3, F::several_with_a_large_one, P::first_pot_only, Fate::signed_only, -12, -9,
     from_exam},
};

json adenoma(const std::string& id, const char* site, int size, const char* type,
             const std::string& specimen) {
  return {{"id", id},
          {"site", site},
          {"size_mm", size},
          {"paris", size >= 20 ? "0-IIa" : "0-Is"},
          {"removal", "en bloc"},
          {"retrieved", true},
          {"specimen", specimen},
          {"histology", {{"type", type}, {"dysplasia", "low grade"}, {"margin", "clear"}}}};
}

constexpr const char* sites[] = {"caecum",           "ascending colon", "hepatic flexure", "transverse colon",
                                 "descending colon", "sigmoid colon",   "rectum"};

/// Its size and then its site are drawn: of two draws among the arguments of a call, each compiler would take
/// another first, and each would have a unit of its own.
json drawn_adenoma(Dice& dice, const std::string& id, int least_mm, int most_mm, const char* type,
                   const std::string& specimen) {
  const int size = dice.between(least_mm, most_mm);
  return adenoma(id, dice.one_of(sites), size, type, specimen);
}

json lesions_of(Findings findings, Dice& dice) {
  json lesions = json::array();
  switch (findings) {
    case F::none:
    case F::poor_preparation:
      break;
    case F::one_small_adenoma:
    case F::lynch_syndrome:
      lesions.push_back(drawn_adenoma(dice, "L1", 3, 8, "tubular adenoma", "A"));
      break;
    case F::several_with_a_large_one:
      lesions.push_back(drawn_adenoma(dice, "L1", 10, 18, "tubulovillous adenoma", "A"));
      lesions.push_back(drawn_adenoma(dice, "L2", 3, 9, "tubular adenoma", "B"));
      break;
    case F::six_adenomas:
      for (int i = 1; i <= 6; ++i) {
        lesions.push_back(
            drawn_adenoma(dice, "L" + std::to_string(i), 3, 8, "tubular adenoma", i <= 3 ? "A" : "B"));
      }
      break;
    case F::large_in_pieces:
      lesions.push_back(drawn_adenoma(dice, "L1", 22, 45, "tubulovillous adenoma", "A"));
      lesions[0]["removal"] = "piecemeal";
      lesions[0]["histology"]["margin"] = "not assessable";
      break;
    case F::large_in_one_piece:
      lesions.push_back(drawn_adenoma(dice, "L1", 20, 30, "tubulovillous adenoma", "A"));
      break;
    case F::size_in_doubt:
      lesions.push_back(adenoma("L1", dice.one_of(sites), 9, "tubular adenoma", "A"));
      lesions.push_back(adenoma("L2", dice.one_of(sites), 5, "tubular adenoma", "B"));
      lesions[0]["size_mm"] = {{"from", 8}, {"to", 12}};
      break;
  }
  return lesions;
}

// Told for most examinations, by their number instead of thrown. Some removals bled.
void add_complications(json& exam, int number, Findings findings) {
  if (number % 8 == 0) return;  // not stated
  exam["complications"] = json::array();
  const bool removed = findings != F::none && findings != F::poor_preparation;
  if (!removed || number % 25 != 1) return;
  exam["complications"].push_back({{"kind", "bleeding"}, {"on", exam["date"]}, {"severity", "mild"}});
}

}  // namespace

std::span<const Scenario> scenarios() {
  return all;
}

int usual_months(Findings findings) {
  return findings == F::large_in_pieces ? 2 : 36;
}

json examination(Findings findings, const std::string& id, const engine::Date& day, Dice& dice) {
  constexpr const char* endoscopists[] = {"Dr R. Hazelmere", "Mr T. Quince", "Nurse A. Lovage"};
  constexpr const char* rooms[] = {"Room 1", "Room 2", "Community list"};
  json exam = {{"id", id},
               {"date", engine::text_of(day)},
               {"indication", findings == F::lynch_syndrome ? "surveillance" : "symptoms"},
               {"procedure", "colonoscopy"},
               {"reached", "caecum"},
               {"endoscopist", dice.one_of(endoscopists)},
               {"place", dice.one_of(rooms)},
               {"lesions", lesions_of(findings, dice)}};
  const int clean = findings == F::poor_preparation ? 1 : 3;
  exam["preparation"]["boston"] = {
      {"right", clean}, {"transverse", clean == 1 ? 1 : 2}, {"left", clean == 1 ? 2 : 3}};
  add_complications(exam, std::stoi(id.substr(1)), findings);
  std::vector<std::string> pots;
  for (const json& lesion : exam["lesions"]) {
    const auto pot = lesion["specimen"].get<std::string>();
    if (pots.empty() || pots.back() != pot) pots.push_back(pot);
  }
  for (const std::string& pot : pots) {
    exam["specimens"].push_back(
        {{"id", pot}, {"accession", "26H" + id.substr(1) + pot}, {"sent", engine::text_of(day)}});
  }
  return exam;
}

}  // namespace cli
