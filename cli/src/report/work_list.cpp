#include "report/work_list.h"

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

std::string plain(const nlohmann::json& cell) {
  if (cell.is_null()) return "";
  return cell.is_string() ? cell.get<std::string>() : cell.dump();
}

std::string text_of(const WorkList& list) {
  const std::string count = std::to_string(list.rows.size());
  std::string text =
      wrapped(list.title + ": " + (list.rows.empty() ? "no one" : count) + ", as of " + list.as_of);
  text += wrapped(list.meaning);
  for (const std::string& filter : list.filters) text += wrapped("Only: " + filter);
  text += wrapped("Next: " + list.next) + wrapped(list.stamp) + "\n";
  for (const WorkListRow& row : list.rows) {
    text += wrapped(row.headline, 6);
    for (const std::string& detail : row.details) text += wrapped("      " + detail, 6);
  }
  if (!list.rows.empty()) text += "\nEnd of the list: " + count + ".\n";
  if (!list.reconciliation.empty()) text += wrapped(list.reconciliation);
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
  nlohmann::json counts = nlohmann::json::object();
  for (const auto& [name, count] : list.counts) counts[name] = count;
  return engine::canonical_json({{"list", list.name},
                                 {"as_of", list.as_of},
                                 {"stamp", list.stamp},
                                 {"head", list.head},
                                 {"filters", list.filters},
                                 {"reconciliation", list.reconciliation},
                                 {"counts", std::move(counts)},
                                 {"count", list.rows.size()},
                                 {"rows", std::move(rows)},
                                 {"caution", caution}}) +
         "\n";
}

}  // namespace cli
