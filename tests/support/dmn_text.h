// Small DMN files for tests.

#pragma once

#include <string>
#include <vector>

namespace testing {

inline std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) out += c == '<' ? "&lt;" : c == '>' ? "&gt;" : c == '&' ? "&amp;" : std::string(1, c);
  return out;
}

inline std::string dmn(const std::string& inside) {
  return "<definitions xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" name=\"test\" namespace=\"urn:test\">\n" +
         inside + "</definitions>\n";
}

inline std::string decision(const std::string& name, const std::string& requires_, const std::string& logic) {
  return "<decision id=\"" + name + "\" name=\"" + name + "\"><variable name=\"" + name + "\"/>" + requires_ + logic +
         "</decision>\n";
}

inline std::string literal(const std::string& text) {
  return "<literalExpression><text>" + escaped(text) + "</text></literalExpression>";
}

inline std::string needs_input(const std::string& id) {
  return "<informationRequirement><requiredInput href=\"#" + id + "\"/></informationRequirement>";
}
inline std::string needs_decision(const std::string& id) {
  return "<informationRequirement><requiredDecision href=\"#" + id + "\"/></informationRequirement>";
}

inline std::string input(const std::string& name, const std::string& type) {
  return "<inputData id=\"" + name + "\" name=\"" + name + "\"><variable name=\"" + name + "\" typeRef=\"" + type +
         "\"/></inputData>\n";
}

/// A table with one input column over `x` and one output column; rows are {cell, output}.
struct SmallTable {
  std::string policy = "UNIQUE";
  std::string aggregation;
  std::string input_values, output_values, otherwise;
  std::vector<std::pair<std::string, std::string>> rows;

  std::string text() const {
    std::string t = "<decisionTable hitPolicy=\"" + policy + "\"" +
                    (aggregation.empty() ? "" : " aggregation=\"" + aggregation + "\"") +
                    "><input><inputExpression><text>x</text></inputExpression>";
    if (!input_values.empty()) t += "<inputValues><text>" + escaped(input_values) + "</text></inputValues>";
    t += "</input><output>";
    if (!output_values.empty()) t += "<outputValues><text>" + escaped(output_values) + "</text></outputValues>";
    if (!otherwise.empty()) t += "<defaultOutputEntry><text>" + escaped(otherwise) + "</text></defaultOutputEntry>";
    t += "</output>";
    for (const auto& [cell, output] : rows) {
      t += "<rule><inputEntry><text>" + escaped(cell) + "</text></inputEntry><outputEntry><text>" + escaped(output) +
           "</text></outputEntry></rule>";
    }
    return t + "</decisionTable>";
  }
};

}  // namespace testing
