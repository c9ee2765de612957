#include "proof/shapes.h"

namespace engine {

using nlohmann::json;

namespace {

struct Setting {
  std::string words;
  json patient;
  json previous = json::array();
};

json person(json conditions, const char* born = "1965-05-04") {
  return {
      {"birth_date", born},         {"sex", "female"},          {"conditions", std::move(conditions)},
      {"relatives", json::array()}, {"family_history", "none"}, {"life_expectancy_under_10_years", false}};
}

json small_adenoma(const std::string& id, int number) {
  return {{"id", id},
          {"number", number},
          {"site", "sigmoid colon"},
          {"size_mm", 3},
          {"paris", "0-Is"},
          {"removal", "en bloc"},
          {"retrieved", true},
          {"histology", {{"type", "tubular adenoma"}, {"dysplasia", "low grade"}, {"margin", "clear"}}}};
}

json examination(const std::string& date, json lesions) {
  return {{"date", date},        {"indication", "surveillance"},        {"procedure", "colonoscopy"},
          {"reached", "caecum"}, {"preparation", {{"graded", "good"}}}, {"lesions", std::move(lesions)}};
}

std::vector<Setting> settings() {
  return {
      {"a first examination", person(json::array())},
      {"an examination 3 years after one with 5 small adenomas", person(json::array()),
       json::array({examination("2023-03-10", json::array({small_adenoma("P1", 5)}))})},
      {"a patient with Lynch syndrome",
       person(json::array({{{"name", "lynch syndrome"}, {"gene", "MLH1"}}}), "1985-05-04")},
      {"a patient with extensive ulcerative colitis",
       person(json::array({{{"name", "ulcerative colitis"},
                            {"onset", "2009"},
                            {"extent", "extensive"},
                            {"activity", "none"},
                            {"post_inflammatory_polyps", false},
                            {"stricture", false},
                            {"dysplasia_within_5_years", false}}}))},
      {"a patient 14 months after resection of a cancer",
       person(json::array({{{"name", "colorectal cancer resected"}, {"resection_date", "2025-01-10"}}}))},
  };
}

json record(const Setting& setting, json exam) {
  return {{"patient", setting.patient},
          {"exam", std::move(exam)},
          {"previous", setting.previous},
          {"setting",
           {{"nation", "England"},
            {"screening_from_age", 50},
            {"organised_screening", true},
            {"adenoma_detection_adequate", true}}}};
}

/// One kind of polyp, with what is not in `known` left open.
json open_lesion(json known) {
  json lesion = {{"id", "L1"},
                 {"number", {{"from", 1}, {"to", 21}}},
                 {"retrieved", true},
                 {"histology", json::object()}};
  lesion.update(known, true);
  return lesion;
}

json with_lesions(json lesions) {
  return examination("2026-03-10", std::move(lesions));
}

json changed(json whole, const json& change) {
  whole.update(change, true);
  return whole;
}

const json taken_out = {{"removal", json::array({"en bloc", "piecemeal"})}};

void add_pairs(const Setting& setting, std::vector<LawShape>& all) {
  const auto pair = [&](std::string law, json better, json worse, std::string apart = {}) {
    all.push_back({std::move(law), setting.words, record(setting, with_lesions(std::move(better))),
                   record(setting, with_lesions(std::move(worse))), std::move(apart)});
  };
  const json any = open_lesion(taken_out);
  pair("one more small adenoma never comes later", json::array({any}),
       json::array({any, small_adenoma("L2", 1)}));
  pair("a polyp more never comes later than none", json::array(), json::array({any}));
  // Every pair of two sizes or numbers is looked at: site and shape are few, or it would take too long.
  const json placed = open_lesion({{"removal", json::array({"en bloc", "piecemeal"})},
                                   {"site", json::array({"ascending colon", "rectum"})},
                                   {"paris", json::array({"0-Ip", "0-IIa"})}});
  const json one = changed(placed, {{"number", 1}}),
             plain = changed(placed, {{"histology", {{"margin", "clear"}}}});
  pair("a larger polyp never comes later", json::array({one}), json::array({one}), "exam.lesions[0].size_mm");
  pair("more polyps of a kind never come later", json::array({plain}), json::array({plain}),
       "exam.lesions[0].number");
  const auto graded = [](const char* grade) {
    return open_lesion({{"removal", json::array({"en bloc", "piecemeal"})},
                        {"histology",
                         {{"type", json::array({"tubular adenoma", "tubulovillous adenoma", "villous adenoma",
                                                "sessile serrated lesion", "traditional serrated adenoma"})},
                          {"dysplasia", grade}}}});
  };
  pair("high grade never comes later than low", json::array({graded("low grade")}),
       json::array({graded("high grade")}));
  const auto margined = [](const char* margin) {
    return open_lesion(
        {{"removal", json::array({"en bloc", "piecemeal"})}, {"histology", {{"margin", margin}}}});
  };
  pair("an involved margin never comes later than a clear one", json::array({margined("clear")}),
       json::array({margined("involved")}));
}

void add_single(const Setting& setting, std::vector<LawShape>& all) {
  const auto single = [&](std::string law, const json& exam) {
    all.push_back({std::move(law), setting.words, record(setting, exam), std::nullopt, {}});
  };
  const json any = open_lesion(taken_out);
  const json incomplete = {
      {"reached", json::array({"ascending colon", "transverse colon", "sigmoid colon"})}};
  const json badly_prepared = {{"preparation", {{"graded", json::array({"poor", "inadequate"})}}}};
  for (const json& lesions : {json::array(), json::array({any})}) {
    single("an incomplete examination never waits long", changed(with_lesions(lesions), incomplete));
    single("a badly prepared examination never waits long", changed(with_lesions(lesions), badly_prepared));
  }
  single("cancer in a polyp never waits long",
         with_lesions(json::array(
             {open_lesion({{"removal", json::array({"en bloc", "piecemeal"})},
                           {"histology", {{"type", "adenocarcinoma"}, {"dysplasia", "high grade"}}}})})));
}

}  // namespace

std::vector<LawShape> law_shapes() {
  std::vector<LawShape> all;
  for (const Setting& setting : settings()) {
    add_pairs(setting, all);
    add_single(setting, all);
  }
  return all;
}

}  // namespace engine
