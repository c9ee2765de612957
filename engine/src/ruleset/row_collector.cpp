#include "ruleset/row_collector.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace engine {

namespace {

constexpr std::array<std::string_view, 4> evidence_words = {"guideline", "secondary", "memory", "engine"};

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blank = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blank);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(blank) - from + 1);
}

struct Columns {
  std::optional<std::size_t> row, says, source, evidence;
};

Columns columns_of(const TableView& table) {
  Columns columns;
  for (std::size_t i = 0; i < table.annotations.size(); ++i) {
    const std::string_view heading = trimmed(table.annotations[i]);
    if (heading == "row") columns.row = i;
    if (heading == "says") columns.says = i;
    if (heading == "source") columns.source = i;
    if (heading == "evidence") columns.evidence = i;
  }
  return columns;
}

std::string cell(const TableView::Rule& rule, std::optional<std::size_t> column) {
  if (!column || *column >= rule.annotations.size()) return {};
  return std::string(trimmed(rule.annotations[*column]));
}

class Collector {
 public:
  explicit Collector(Errors& errors) : errors_(errors) {}

  void add(const TableView& table) {
    const Columns columns = columns_of(table);
    if (!columns.row) return;
    for (std::size_t i = 0; i < table.rules.size(); ++i) {
      const TableView::Rule& rule = table.rules[i];
      place_ = "table `" + table.decision + "`, rule " + std::to_string(i + 1);
      add({cell(rule, columns.row), cell(rule, columns.source), cell(rule, columns.evidence),
           cell(rule, columns.says)});
    }
  }

  std::vector<RulesetRow> rows;

 private:
  void add(RulesetRow row) {
    if (row.id.empty()) {
      if (!row.source.empty() || !row.evidence.empty()) {
        fault("missing_row_id", "has a source but no `row`",
              "give the row of the fact sheet, such as `20-01`");
      }
      return;
    }
    need(row.id, "says", row.text);
    need(row.id, "source", row.source);
    need(row.id, "evidence", row.evidence);
    const bool known =
        std::find(evidence_words.begin(), evidence_words.end(), row.evidence) != evidence_words.end();
    if (!known && !row.evidence.empty()) {
      fault("unknown_term", "row `" + row.id + "` has the evidence `" + row.evidence +
                                "`, expected `guideline`, `secondary`, `memory` or `engine`");
    }
    const auto same_id = [&](const RulesetRow& other) { return other.id == row.id; };
    const auto earlier = std::find_if(rows.begin(), rows.end(), same_id);
    if (earlier == rows.end()) {
      rows.push_back(std::move(row));
      return;
    }
    agree(row.id, "source", earlier->source, row.source);
    agree(row.id, "evidence", earlier->evidence, row.evidence);
    agree(row.id, "says", earlier->text, row.text);
  }

  void need(const std::string& id, std::string_view column, const std::string& text) {
    if (text.empty()) fault("missing_annotation", "row `" + id + "` has no `" + std::string(column) + "`");
  }

  /// One row may stand in several tables, but it says the same in each.
  void agree(const std::string& id, std::string_view column, const std::string& earlier,
             const std::string& here) {
    if (earlier == here || here.empty()) return;
    fault("row_says_two_things",
          "row `" + id + "` has the " + std::string(column) + " `" + here + "`, and elsewhere `" + earlier +
              "`",
          "give it one text, or two row ids");
  }

  void fault(std::string_view code, const std::string& message, std::string help = {}) {
    Error error;
    error.code = code;
    error.message = place_ + ": " + message;
    error.place.path = place_;
    error.help = std::move(help);
    errors_.push_back(std::move(error));
  }

  Errors& errors_;
  std::string place_;
};

}  // namespace

std::vector<RulesetRow> collect_rows(const std::vector<TableView>& tables, Errors& errors) {
  Collector collector(errors);
  for (const TableView& table : tables) collector.add(table);
  if (collector.rows.empty()) {
    Error error;
    error.code = "no_rows";
    error.message = "no table has a row with an annotation `row`";
    error.help = "give the tables annotations named `row`, `says`, `source` and `evidence`";
    errors.push_back(std::move(error));
  }
  return std::move(collector.rows);
}

std::vector<std::vector<std::string>> row_ids(const std::vector<TableView>& tables) {
  std::vector<std::vector<std::string>> ids;
  for (const TableView& table : tables) {
    const Columns columns = columns_of(table);
    std::vector<std::string>& of_table = ids.emplace_back();
    for (const TableView::Rule& rule : table.rules) of_table.push_back(cell(rule, columns.row));
  }
  return ids;
}

}  // namespace engine
