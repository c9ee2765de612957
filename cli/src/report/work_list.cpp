#include "report/work_list.h"

#include <algorithm>

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

std::string plain(const nlohmann::json& cell) {
  if (cell.is_null()) return "";
  return cell.is_string() ? cell.get<std::string>() : cell.dump();
}

std::vector<Total> totals_of(const WorkList& list) {
  std::vector<Total> totals;
  for (const std::string& key : list.total_by) {
    const auto column =
        static_cast<std::size_t>(std::find(list.keys.begin(), list.keys.end(), key) - list.keys.begin());
    Total& total = totals.emplace_back(Total{key, {}});
    for (const WorkListRow& row : list.rows) {
      const std::string value = plain(row.cells.at(column));
      auto known = std::find_if(total.counts.begin(), total.counts.end(),
                                [&](const auto& count) { return count.first == value; });
      if (known == total.counts.end()) known = total.counts.insert(known, {value, 0});
      ++known->second;
    }
  }
  return totals;
}

std::vector<std::string> filter_lines(const WorkList& list) {
  std::vector<std::string> lines;
  for (const std::string& filter : list.filters) lines.push_back("Only: " + filter);
  if (list.unfiltered)
    lines.push_back("Shown: " + std::to_string(list.rows.size()) + " of " + std::to_string(*list.unfiltered) +
                    ".");
  return lines;
}

std::vector<std::string> closing_lines(const WorkList& list) {
  std::vector<std::string> lines;
  for (const Total& total : totals_of(list)) {
    std::string line;
    for (const auto& [value, count] : total.counts)
      line += (line.empty() ? "" : ", ") + (value.empty() ? "none" : value) + " " + std::to_string(count);
    if (line.empty()) continue;
    std::string name = total.key;
    std::replace(name.begin(), name.end(), '_', ' ');
    lines.push_back("By " + name + ": " + line + ".");
  }
  if (!list.reconciliation.empty()) lines.push_back(list.reconciliation);
  return lines;
}

std::string text_of(const WorkList& list) {
  const std::string count = std::to_string(list.rows.size());
  std::string text =
      wrapped(list.title + ": " + (list.rows.empty() ? "no one" : count) + ", as of " + list.as_of);
  text += wrapped(list.meaning);
  for (const std::string& line : filter_lines(list)) text += wrapped(line);
  text += wrapped("Next: " + list.next) + wrapped(list.stamp) + "\n";
  for (const WorkListRow& row : list.rows) {
    text += wrapped(row.headline, 6);
    for (const std::string& detail : row.details) text += wrapped("      " + detail, 6);
  }
  if (!list.rows.empty()) text += "\nEnd of the list: " + count + ".\n";
  for (const std::string& line : closing_lines(list)) text += wrapped(line);
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
  nlohmann::json counts = nlohmann::json::object(), totals = nlohmann::json::object();
  for (const auto& [name, count] : list.counts) counts[name] = count;
  for (const Total& total : totals_of(list)) {
    totals[total.key] = nlohmann::json::object();
    for (const auto& [value, count] : total.counts) totals[total.key][value] = count;
  }
  return engine::canonical_json({{"list", list.name},
                                 {"as_of", list.as_of},
                                 {"stamp", list.stamp},
                                 {"head", list.head},
                                 {"filters", list.filters},
                                 {"reconciliation", list.reconciliation},
                                 {"counts", std::move(counts)},
                                 {"totals", std::move(totals)},
                                 {"unfiltered", list.unfiltered.value_or(list.rows.size())},
                                 {"elsewhere", list.elsewhere},
                                 {"count", list.rows.size()},
                                 {"rows", std::move(rows)},
                                 {"caution", caution}}) +
         "\n";
}

}  // namespace cli
