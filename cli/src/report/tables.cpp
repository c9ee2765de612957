#include "report/tables.h"

#include <algorithm>

#include "report/layout.h"

namespace cli {

namespace {

using engine::TableView;

constexpr std::size_t margin = 12;

std::string labelled(std::string label, const std::string& text) {
  if (text.empty()) return "";
  label.resize(margin, ' ');
  return wrapped(label + text, margin);
}

std::string cell(const std::vector<std::string>& cells, std::size_t column) {
  return column < cells.size() ? cells[column] : "";
}

// The annotation called `name` of a row, or empty.
std::string annotation(const TableView& table, const TableView::Rule& rule, std::string_view name) {
  const auto found = std::find(table.annotations.begin(), table.annotations.end(), name);
  return found == table.annotations.end()
             ? ""
             : cell(rule.annotations, static_cast<std::size_t>(found - table.annotations.begin()));
}

bool is_told_apart(std::string_view annotation_name) {
  return annotation_name == "row" || annotation_name == "says" || annotation_name == "source" ||
         annotation_name == "evidence";
}

std::string text_of_rule(const TableView& table, const TableView::Rule& rule, std::size_t number) {
  const std::string row = annotation(table, rule, "row");
  std::string text =
      labelled(row.empty() ? "  " + std::to_string(number) : "  " + row,
               row.empty() ? "(row " + std::to_string(number) + ")" : annotation(table, rule, "says"));
  for (std::size_t i = 0; i < table.inputs.size(); ++i) {
    const std::string condition = cell(rule.inputs, i);
    if (condition != "-" && !condition.empty())
      text += labelled("    when", table.inputs[i] + ": " + condition);
  }
  for (std::size_t i = 0; i < rule.outputs.size(); ++i) {
    const std::string name = cell(table.outputs, i);
    text += labelled("    then", (name.empty() ? "" : name + ": ") + rule.outputs[i]);
  }
  const std::string evidence = annotation(table, rule, "evidence");
  text += labelled("    source",
                   annotation(table, rule, "source") + (evidence.empty() ? "" : " [" + evidence + "]"));
  for (std::size_t i = 0; i < table.annotations.size(); ++i) {
    if (!is_told_apart(table.annotations[i])) {
      text += labelled("    note", table.annotations[i] + ": " + cell(rule.annotations, i));
    }
  }
  return text;
}

}  // namespace

std::string text_of(const engine::Ruleset& ruleset) {
  const engine::RulesetAbout& about = ruleset.about;
  std::string text = wrapped(about.title);
  text += labelled("id", about.id + ", edition " + about.edition + ", " + about.state +
                             (about.superseded_by ? ", superseded by " + *about.superseded_by : ""));
  text += labelled("guideline", about.publisher + ", " + about.published +
                                    (about.doi.empty() ? "" : ", doi:" + about.doi));
  for (const std::string& older : about.supersedes) text += labelled("replaces", older);
  text += labelled("digest", ruleset.digest);
  for (const std::string& words : about.cautions) text += labelled("caution", words);
  return text;
}

std::string text_of(const TableView& table) {
  std::string text = wrapped(table.decision + "  (" + table.hit_policy + ")");
  for (std::size_t i = 0; i < table.rules.size(); ++i) text += text_of_rule(table, table.rules[i], i + 1);
  return text;
}

}  // namespace cli
