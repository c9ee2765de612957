#include "report/work_list.h"

#include <algorithm>
#include <utility>

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

std::string plain(const nlohmann::json& cell) {
  if (cell.is_null()) return "";
  return cell.is_string() ? cell.get<std::string>() : cell.dump();
}

Totals::Totals(const WorkList& list) {
  for (const std::string& key : list.total_by) {
    columns_.push_back(
        static_cast<std::size_t>(std::find(list.keys.begin(), list.keys.end(), key) - list.keys.begin()));
    totals_.push_back({key, {}});
  }
}

void Totals::count(const WorkListRow& row) {
  for (std::size_t i = 0; i < totals_.size(); ++i) {
    const std::string value = plain(row.cells.at(columns_[i]));
    auto& counts = totals_[i].counts;
    auto known =
        std::find_if(counts.begin(), counts.end(), [&](const auto& count) { return count.first == value; });
    if (known == counts.end()) known = counts.insert(known, {value, 0});
    ++known->second;
  }
}

std::vector<std::string> filter_lines(const WorkList& list) {
  std::vector<std::string> lines;
  for (const std::string& filter : list.filters) lines.push_back("Only: " + filter);
  if (list.unfiltered)
    lines.push_back("Shown: " + std::to_string(list.rows.size()) + " of " + std::to_string(*list.unfiltered) +
                    ".");
  return lines;
}

std::vector<std::string> closing_lines(const WorkList& list, const Totals& totals) {
  std::vector<std::string> lines;
  for (const Total& total : totals.all()) {
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

void write_text(std::ostream& out, const WorkList& list) {
  const std::string count = std::to_string(list.rows.size());
  out << wrapped(list.title + ": " + (list.rows.empty() ? "no one" : count) + ", as of " + list.as_of)
      << wrapped(list.meaning);
  for (const std::string& line : filter_lines(list)) out << wrapped(line);
  out << wrapped("Next: " + list.next) << wrapped(list.stamp) << '\n';
  Totals totals(list);
  list.rows.each([&](const WorkListRow& row) {
    totals.count(row);
    out << wrapped(row.headline, 6);
    for (const std::string& detail : row.details) out << wrapped("      " + detail, 6);
  });
  if (!list.rows.empty()) out << "\nEnd of the list: " << count << ".\n";
  for (const std::string& line : closing_lines(list, totals)) out << wrapped(line);
  for (const std::string& other : list.elsewhere) out << wrapped(other);
  out << caution << '\n';
}

// Canonical JSON has its keys in order: those before `rows`, the rows, and those after them.
void write_json(std::ostream& out, const WorkList& list) {
  nlohmann::json counts = nlohmann::json::object();
  for (const auto& [name, count] : list.counts) counts[name] = count;
  std::string before = engine::canonical_json({{"list", list.name},
                                               {"as_of", list.as_of},
                                               {"head", list.head},
                                               {"filters", list.filters},
                                               {"reconciliation", list.reconciliation},
                                               {"counts", std::move(counts)},
                                               {"elsewhere", list.elsewhere},
                                               {"count", list.rows.size()},
                                               {"caution", caution}});
  before.back() = ',';
  out << before << "\"rows\":[";
  Totals totals(list);
  const char* between = "";
  list.rows.each([&](const WorkListRow& row) {
    totals.count(row);
    nlohmann::json object = nlohmann::json::object();
    for (std::size_t i = 0; i < list.keys.size(); ++i) object[list.keys[i]] = row.cells[i];
    out << std::exchange(between, ",") << engine::canonical_json(object);
  });
  nlohmann::json by_key = nlohmann::json::object();
  for (const Total& total : totals.all()) {
    by_key[total.key] = nlohmann::json::object();
    for (const auto& [value, count] : total.counts) by_key[total.key][value] = count;
  }
  out << "],"
      << engine::canonical_json({{"stamp", list.stamp},
                                 {"totals", std::move(by_key)},
                                 {"unfiltered", list.unfiltered.value_or(list.rows.size())}})
             .substr(1)
      << '\n';
}

}  // namespace cli
