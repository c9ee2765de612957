// Rulesets of a few lines of FEEL, with their bytes, for tests of what the ledger does with answers.

#pragma once

#include <stdexcept>
#include <string>

#include "ledger/rulesets.h"

namespace support {

/// A DMN file whose decision `Next step` is `feel`; it may name the rows T-01 to T-04.
inline std::string small_dmn(const std::string& id, const std::string& feel) {
  std::string inputs, requirements, rules;
  for (const std::string input : {"patient", "exam", "previous", "setting"}) {
    inputs += "<inputData id=\"" + input + "\" name=\"" + input + "\"><variable name=\"" + input +
              "\"/></inputData>";
    requirements +=
        "<informationRequirement><requiredInput href=\"#" + input + "\"/></informationRequirement>";
  }
  for (const std::string row : {"T-01", "T-02", "T-03", "T-04"}) {
    rules +=
        "<rule><inputEntry><text>-</text></inputEntry><outputEntry><text>true</text></outputEntry>"
        "<annotationEntry><text>" +
        row +
        "</text></annotationEntry><annotationEntry><text>a rule made for tests"
        "</text></annotationEntry><annotationEntry><text>none: made for tests</text></annotationEntry>"
        "<annotationEntry><text>engine</text></annotationEntry></rule>";
  }
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<definitions "
         "xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\""
         " id=\"" +
         id + "\" name=\"" + id + "\" namespace=\"urn:" + id + "\">" + inputs +
         "<decision id=\"about\" name=\"About\"><variable name=\"About\"/><literalExpression><text>"
         "{id: \"" +
         id +
         "\", edition: \"1.0.0\", title: \"Made for tests\", publisher: \"none\","
         " published: \"2026-01-01\", doi: \"none\", state: \"current\", supersedes: [], superseded by: null,"
         " cautions: []}</text></literalExpression></decision>"
         "<decision id=\"next\" name=\"Next step\"><variable name=\"Next step\"/>" +
         requirements + "<literalExpression><text><![CDATA[" + feel +
         "]]></text></literalExpression></decision>"
         "<decision id=\"rows\" name=\"Rows\"><variable name=\"Rows\"/><informationRequirement>"
         "<requiredInput href=\"#exam\"/></informationRequirement><decisionTable hitPolicy=\"COLLECT\">"
         "<input><inputExpression><text>exam.id</text></inputExpression></input><output name=\"row\"/>"
         "<annotation name=\"row\"/><annotation name=\"says\"/><annotation name=\"source\"/>"
         "<annotation name=\"evidence\"/>" +
         rules + "</decisionTable></decision></definitions>\n";
}

inline ledger::RulesetInForce small_ruleset(const std::string& id, const std::string& feel) {
  std::string bytes = small_dmn(id, feel);
  auto ruleset = engine::load_ruleset(bytes, id + ".dmn");
  if (!ruleset) throw std::runtime_error(engine::text_of(ruleset.errors().front()));
  return {*ruleset, std::move(bytes)};
}

/// `{action: ..., from: ..., ...}` in FEEL. No months: null.
inline std::string small_answer(const std::string& action, const std::string& from, const std::string& to,
                                const std::string& rule) {
  const auto months = [](const std::string& text) {
    return text.empty() ? std::string("null") : "duration(\"" + text + "\")";
  };
  return "{action: \"" + action + "\", from: " + months(from) + ", to: " + months(to) +
         ", counted from: null, counted from date: null, then: [], rule: \"" + rule +
         "\", because: \"the test says so\", also: [], ask instead: null}";
}

/// One ruleset: cancer is referred, a large piece by piece removal is looked at again after 2 to 6 months, an
/// adenoma after 3 years, and all else returns to screening.
inline ledger::Protocol small_protocol() {
  const std::string adenomas = R"(["tubular adenoma", "tubulovillous adenoma", "villous adenoma"])";
  const std::string feel =
      R"(if some l in exam.lesions satisfies (l.removal != "not removed" and l.histology.type = "adenocarcinoma") then )" +
      small_answer("refer", "", "", "T-01") +
      R"( else if some l in exam.lesions satisfies (l.removal = "piecemeal" and l.size_mm >= 20) then )" +
      small_answer("site check", "P2M", "P6M", "T-02") +
      R"( else if some l in exam.lesions satisfies (l.removal != "not removed" and list contains()" +
      adenomas + ", l.histology.type)) then " +
      small_answer("surveillance colonoscopy", "P3Y", "P3Y", "T-03") + " else " +
      small_answer("return to screening", "", "", "T-04");
  return {small_ruleset("test-a", feel)};
}

}  // namespace support
