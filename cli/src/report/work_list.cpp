#include "report/work_list.h"

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

namespace {

std::string plain(const nlohmann::json& cell) {
  if (cell.is_null()) return "";
  return cell.is_string() ? cell.get<std::string>() : cell.dump();
}

}  // namespace

std::string text_of(const WorkList& list) {
  const std::string count = std::to_string(list.rows.size());
  std::string text =
      wrapped(list.title + ": " + (list.rows.empty() ? "no one" : count) + ", as of " + list.as_of);
  text += wrapped(list.meaning) + wrapped("Next: " + list.next) + wrapped(list.stamp) + "\n";
  for (const WorkListRow& row : list.rows) {
    text += wrapped(row.headline, 6);
    for (const std::string& detail : row.details) text += wrapped("      " + detail, 6);
  }
  if (!list.rows.empty()) text += "\n";
  for (const std::string& other : list.elsewhere) text += wrapped(other);
  return text + std::string(caution) + "\n";
}

std::string json_of(const WorkList& list) {
  nlohmann::json rows = nlohmann::json::array();
  for (const WorkListRow& row : list.rows) {
    nlohmann::json object = nlohmann::json::object();
    for (std::size_t i = 0; i < list.keys.size(); ++i) object[list.keys[i]] = row.cells[i];
    rows.push_back(std::move(object));
  }
  return engine::canonical_json({{"list", list.name},
                                 {"as_of", list.as_of},
                                 {"stamp", list.stamp},
                                 {"count", list.rows.size()},
                                 {"rows", std::move(rows)},
                                 {"caution", caution}}) +
         "\n";
}

std::string csv_cell(std::string_view text) {
  std::string cell(text);
  if (!cell.empty() && std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos) {
    cell.insert(cell.begin(), '\'');
  }
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string csv_of(const WorkList& list) {
  std::string text;
  for (const std::string& key : list.keys) text += (&key == &list.keys.front() ? "" : ",") + csv_cell(key);
  text += "\r\n";
  for (const WorkListRow& row : list.rows) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const bool is_text = row.cells[i].is_string();  // a number of days below zero is no formula
      text += (i == 0 ? "" : ",") + (is_text ? csv_cell(plain(row.cells[i])) : plain(row.cells[i]));
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace cli
