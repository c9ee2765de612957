#include "engine/advice/small_ruleset.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace engine::testing {

namespace {

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '<') {
      out += "&lt;";
    } else if (c == '&') {
      out += "&amp;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string id_of(const std::string& name) {
  std::string id = "d-" + name;
  for (char& c : id) c = c == ' ' ? '-' : c;
  return id;
}

std::string decision(const std::string& name, const std::string& feel,
                     const std::vector<std::pair<std::string, std::string>>& helpers = {}) {
  std::string requirements;
  for (const char* input : {"patient", "exam", "previous", "setting"}) {
    requirements += std::string("<informationRequirement><requiredInput href=\"#") + input +
                    "\"/></informationRequirement>";
  }
  for (const auto& [helper, logic] : helpers) {
    requirements += "<informationRequirement><requiredDecision href=\"#" + id_of(helper) +
                    "\"/></informationRequirement>";
  }
  return "<decision id=\"" + id_of(name) + "\" name=\"" + name + "\"><variable name=\"" + name + "\"/>" +
         requirements + "<literalExpression><text>" + escaped(feel) +
         "</text></literalExpression></decision>\n";
}

std::string rows_table(const std::vector<SmallRow>& rows) {
  std::string rules;
  for (const SmallRow& row : rows) {
    rules += "<rule><inputEntry><text>-</text></inputEntry><outputEntry><text>true</text></outputEntry>";
    for (const std::string& cell : {row.id, row.says, row.source, row.evidence}) {
      rules += "<annotationEntry><text>" + escaped(cell) + "</text></annotationEntry>";
    }
    rules += "</rule>";
  }
  return R"(<decision id="rows" name="Rows"><variable name="Rows"/>
    <informationRequirement><requiredInput href="#exam"/></informationRequirement>
    <decisionTable hitPolicy="COLLECT"><input><inputExpression><text>exam.id</text></inputExpression></input>
    <output name="row"/><annotation name="row"/><annotation name="says"/><annotation name="source"/>
    <annotation name="evidence"/>)" +
         rules + "</decisionTable></decision>\n";
}

nlohmann::json merged(nlohmann::json object, const std::string& changes) {
  object.merge_patch(nlohmann::json::parse("{" + changes + "}"));
  return object;
}

}  // namespace

std::string answer(const std::string& action, const std::string& months, const std::string& rule,
                   const std::string& because) {
  const std::string interval = months.empty() ? "null" : "duration(\"" + months + "\")";
  return "{action: \"" + action + "\", from: " + interval + ", to: " + interval +
         ", counted from: null, counted from date: null, then: [], rule: \"" + rule + "\", because: \"" +
         because + "\", also: [], ask instead: null}";
}

std::string dmn_of(const SmallRuleset& ruleset) {
  std::string inputs;
  for (const char* input : {"patient", "exam", "previous", "setting"}) {
    inputs += std::string("<inputData id=\"") + input + "\" name=\"" + input + "\"><variable name=\"" +
              input + "\"/></inputData>\n";
  }
  std::string text =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<definitions "
      "xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" id=\"test\" name=\"test\" "
      "namespace=\"urn:test\">\n" +
      inputs;
  if (!ruleset.about.empty()) text += decision("About", ruleset.about);
  if (!ruleset.next_step.empty()) text += decision("Next step", ruleset.next_step, ruleset.helpers);
  for (const auto& [name, feel] : ruleset.helpers) text += decision(name, feel);
  if (!ruleset.flags.empty()) text += decision("Flags", ruleset.flags);
  if (!ruleset.facts.empty()) text += decision("Facts", ruleset.facts);
  if (!ruleset.rows.empty()) text += rows_table(ruleset.rows);
  return text + ruleset.more + "</definitions>\n";
}

std::shared_ptr<const Ruleset> loaded(const SmallRuleset& ruleset) {
  auto result = load_ruleset(dmn_of(ruleset), "test.dmn");
  if (!result) {
    for (const Error& error : result.errors()) UNSCOPED_INFO(text_of(error));
    FAIL("the test's ruleset cannot be loaded");
  }
  return *result;
}

std::shared_ptr<const Ruleset> ruleset_with(const std::string& next_step) {
  SmallRuleset ruleset;
  ruleset.next_step = next_step;
  return loaded(ruleset);
}

std::string lesion(const std::string& id, const std::string& changes) {
  const auto known =
      nlohmann::json::parse(R"({"site":"sigmoid colon","size_mm":8,"paris":"0-Is","removal":"en bloc",
      "retrieved":true,"histology":{"type":"tubular adenoma","dysplasia":"low grade","margin":"clear"}})");
  nlohmann::json made = merged(known, changes);
  made["id"] = id;
  // A merge patch with null takes the key out; histology that is awaited is an explicit null.
  if (!made.contains("histology")) made["histology"] = nullptr;
  return made.dump();
}

std::string record_with(const std::vector<std::string>& lesions, const std::string& exam_changes,
                        const std::string& patient_changes) {
  auto exam = nlohmann::json::parse(
      R"({"id":"E1","date":"2026-03-10","indication":"screening","procedure":"colonoscopy",
      "reached":"caecum","cleared":true,"preparation":{"boston":{"right":2,"transverse":3,"left":3}}})");
  exam["lesions"] = nlohmann::json::array();
  for (const std::string& text : lesions) exam["lesions"].push_back(nlohmann::json::parse(text));
  const auto patient =
      nlohmann::json::parse(R"({"birth_date":"1961-05-04","sex":"female","conditions":[],"relatives":[],
      "family_history":"none","life_expectancy_under_10_years":false})");
  const nlohmann::json record = {{"patient", merged(patient, patient_changes)},
                                 {"exam", merged(exam, exam_changes)},
                                 {"previous", nlohmann::json::array()},
                                 {"setting",
                                  {{"nation", "England"},
                                   {"screening_from_age", 50},
                                   {"organised_screening", true},
                                   {"adenoma_detection_adequate", true}}}};
  return record.dump();
}

}  // namespace engine::testing
