#include "rulesets/page_parts.h"

#include <algorithm>
#include <map>

namespace cli {

namespace {

using engine::ElementView;
using engine::TableView;
using Kind = PagePart::Kind;

PagePart text_part(Kind kind, std::string text) {
  return {kind, std::move(text), {}, {}};
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string on_one_line(const std::string& text) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (!blank) line += c;
    if (blank && !line.empty() && line.back() != ' ') line += ' ';
  }
  if (line.ends_with(' ')) line.pop_back();
  return line;
}

// FEEL as it is written, moved to the left margin.
std::string at_margin(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  std::size_t margin = std::string::npos;
  for (std::size_t i = 1; i < lines.size(); ++i) margin = std::min(margin, lines[i].find_first_not_of(' '));
  std::string moved;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t cut = i == 0 ? lines[i].find_first_not_of(' ') : margin;
    std::string line = cut >= lines[i].size() ? "" : lines[i].substr(cut);
    line.erase(line.find_last_not_of(" \r\t") + 1);
    if (!line.empty() || !moved.empty()) moved += line + "\n";
  }
  while (moved.ends_with("\n\n") || moved == "\n") moved.pop_back();
  return moved;
}

PagePart about_table(const engine::Ruleset& ruleset) {
  const engine::RulesetAbout& about = ruleset.about;
  PagePart table{Kind::table, "", {"", ""}, {}};
  const auto add = [&](const std::string& name, const std::string& value) {
    if (!value.empty()) table.rows.push_back({name, value});
  };
  add("id", about.id);
  add("edition of this encoding", about.edition);
  add("state", about.state);
  add("publisher", about.publisher);
  add("published", about.published);
  add("doi", about.doi);
  add("supersedes", joined(about.supersedes));
  add("superseded by", about.superseded_by.value_or(""));
  add("digest of the file", ruleset.digest);
  for (const engine::ImportedFile& file : ruleset.imports) add("imports " + file.namespace_name, file.digest);
  return table;
}

PagePart row_table(const engine::Ruleset& ruleset) {
  PagePart table{Kind::table, "", {"row", "says", "source", "evidence"}, {}};
  for (const engine::RulesetRow& row : ruleset.rows)
    table.rows.push_back({row.id, on_one_line(row.text), on_one_line(row.source), row.evidence});
  return table;
}

std::string cell(const std::vector<std::string>& cells, std::size_t column) {
  return column < cells.size() ? on_one_line(cells[column]) : "";
}

PagePart decision_table(const TableView& view) {
  PagePart table{Kind::table, "", {}, {}};
  const auto rows = std::find(view.annotations.begin(), view.annotations.end(), "row");
  const auto row = static_cast<std::size_t>(rows - view.annotations.begin());
  table.headings.push_back(rows == view.annotations.end() ? "" : "row");
  for (const std::string& input : view.inputs) table.headings.push_back("when " + on_one_line(input));
  for (const std::string& output : view.outputs)
    table.headings.push_back(output.empty() ? "then" : "then " + output);
  for (std::size_t i = 0; i < view.rules.size(); ++i) {
    std::vector<std::string> cells = {cell(view.rules[i].annotations, row)};
    if (cells[0].empty()) cells[0] = "(" + std::to_string(i + 1) + ")";
    for (std::size_t k = 0; k < view.inputs.size(); ++k) cells.push_back(cell(view.rules[i].inputs, k));
    for (std::size_t k = 0; k < view.outputs.size(); ++k) cells.push_back(cell(view.rules[i].outputs, k));
    table.rows.push_back(std::move(cells));
  }
  return table;
}

class Definitions {
 public:
  Definitions(const engine::Ruleset& ruleset, std::vector<PagePart>& parts)
      : model_(*ruleset.model), parts_(parts) {
    for (const TableView& table : model_.tables()) tables_[table.decision].push_back(&table);
  }

  void add(ElementView::Kind kind) {
    for (const ElementView& element : model_.elements()) {
      if (element.kind == kind && element.name != "About") add(element);
    }
  }

 private:
  void add(const ElementView& element) {
    const bool shared = element.namespace_name != model_.namespace_name();
    parts_.push_back(text_part(Kind::subheading, element.name));
    std::string description = on_one_line(element.description);
    if (shared)
      description += (description.empty() ? "" : " ") + ("(Shared: " + element.namespace_name + ".)");
    if (!description.empty()) parts_.push_back(text_part(Kind::paragraph, description));
    if (!element.text.empty()) parts_.push_back(text_part(Kind::code, at_margin(element.text)));
    const auto tables = tables_.find(element.name);
    if (tables == tables_.end()) return;
    for (const TableView* table : tables->second) {
      parts_.push_back(text_part(Kind::paragraph, "Hit policy: " + table->hit_policy + "."));
      parts_.push_back(decision_table(*table));
    }
  }

  const engine::Model& model_;
  std::vector<PagePart>& parts_;
  std::map<std::string, std::vector<const TableView*>> tables_;
};

}  // namespace

std::vector<PagePart> page_parts(const engine::Ruleset& ruleset) {
  std::vector<PagePart> parts = {text_part(Kind::heading, ruleset.about.id + ": " + ruleset.about.title),
                                 about_table(ruleset)};
  for (const std::string& caution : ruleset.about.cautions)
    parts.push_back(text_part(Kind::paragraph, "Caution: " + caution + "."));
  parts.push_back(text_part(Kind::heading, "Rows and their sources"));
  parts.push_back(
      text_part(Kind::paragraph,
                "Evidence: guideline, read in it; secondary, read in a publication that restates it; "
                "memory, not read; engine, a rule of ours."));
  parts.push_back(row_table(ruleset));
  Definitions definitions(ruleset, parts);
  parts.push_back(text_part(Kind::heading, "Functions"));
  definitions.add(ElementView::Kind::function);
  parts.push_back(text_part(Kind::heading, "Decisions"));
  definitions.add(ElementView::Kind::decision);
  return parts;
}

}  // namespace cli
