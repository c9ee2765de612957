// A list that someone works through, apart from how it is shown: as text, JSON or CSV.

#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

/// One person's line on a list.
struct WorkListRow {
  std::vector<nlohmann::json> cells;  ///< One for each of WorkList::keys: text, whole number, or null.
  std::string headline;               ///< For text: what must be seen at a glance.
  std::vector<std::string> details;   ///< For text: what comes below it.
};

struct WorkList {
  std::string name;     ///< `due`
  std::string title;    ///< `Due for the next step`
  std::string meaning;  ///< Who stands on it.
  std::string next;     ///< What to do with it, and who does.
  std::string as_of;    ///< The day, ISO 8601.
  std::string stamp;    ///< When it was made and from what: ledger, entries, head.
  std::vector<std::string> keys;
  std::vector<WorkListRow> rows;
  std::vector<std::string> elsewhere;  ///< Who waits on other lists: no one is lost between two of them.
};

/// At most 100 characters wide; ends with the caution.
std::string text_of(const WorkList& list);

/// `{"list":..,"as_of":..,"stamp":..,"count":..,"rows":[{..}],"caution":..}`, one line with its line feed.
std::string json_of(const WorkList& list);

/// RFC 4180 with a heading line. A cell that a spreadsheet would take for a formula begins with an
/// apostrophe.
std::string csv_of(const WorkList& list);

/// One cell as it stands in CSV. Source of the guard: OWASP, CSV Injection.
std::string csv_cell(std::string_view text);

}  // namespace cli
