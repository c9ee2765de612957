#include "report/csv.h"

#include <algorithm>
#include <array>

namespace cli {

namespace {

constexpr std::array<std::string_view, 11> formula_starts = {"=",  "+",  "-",  "@",  "\t", "\r",
                                                             "\n", "＝", "＋", "－", "＠"};

bool begins_formula(std::string_view text) {
  return std::any_of(formula_starts.begin(), formula_starts.end(),
                     [&](std::string_view start) { return text.starts_with(start); });
}

bool needs_quotes(std::string_view cell) {
  if (cell.empty()) return false;
  return cell.find_first_of(",\"\r\n") != std::string_view::npos || cell.front() == ' ' || cell.back() == ' ';
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string cell = begins_formula(text) ? "'" : "";
  cell += text;
  if (!needs_quotes(cell)) return cell;
  std::string quoted = "\"";
  for (const char c : cell) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string csv_cell(const nlohmann::json& cell) {
  return cell.is_string() ? csv_cell(std::string_view(cell.get_ref<const std::string&>())) : plain(cell);
}

std::string csv_line(const std::vector<nlohmann::json>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i == 0 ? "" : ",") + csv_cell(cells[i]);
  return line + "\r\n";
}

void write_csv(std::ostream& out, const WorkList& list) {
  std::vector<nlohmann::json> headings(list.keys.begin(), list.keys.end());
  headings.insert(headings.end(), {"as_of", "ledger_head", "filters", "number", "of"});
  std::string filters;
  for (const std::string& filter : list.filters) filters += (filters.empty() ? "" : "; ") + filter;
  out << csv_line(headings);
  std::uint64_t number = 0;
  list.rows.each([&](const WorkListRow& row) {
    std::vector<nlohmann::json> cells = row.cells;
    cells.insert(cells.end(), {list.as_of, list.head, filters, ++number, list.rows.size()});
    out << csv_line(cells);
  });
}

}  // namespace cli
