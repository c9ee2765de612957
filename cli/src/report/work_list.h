// A list that someone works through, apart from how it is shown: as text, JSON, CSV (csv.h), a page for print
// (work_list_page.h) or calendar entries (calendar.h).

#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "report/work_list_rows.h"

namespace cli {

struct WorkList {
  std::string name;                  ///< `due`
  std::string title;                 ///< `Due for the next step`
  std::string meaning;               ///< Who stands on it.
  std::string next;                  ///< What to do with it, and who does.
  std::string as_of;                 ///< The day, ISO 8601.
  std::string stamp;                 ///< When it was made and from what: ledger, entries, head, program.
  std::string head;                  ///< Hash of the ledger's last entry, hexadecimal.
  std::string ledger_identity;       ///< Hash of its first entry: no other ledger has it.
  std::vector<std::string> filters;  ///< What was asked for beyond the list itself.
  std::optional<std::uint64_t> unfiltered;  ///< Rows before the filters; none where nothing was filtered.
  std::string reconciliation;               ///< How the list adds up with the others; empty when it does not.
  std::vector<std::pair<std::string, std::uint64_t>> counts;  ///< For JSON: totals by name.
  std::vector<std::string> keys;
  std::vector<std::string> total_by;  ///< Keys whose values are counted at the end.
  std::vector<std::string> columns;   ///< Headings of the page for print.
  bool dated = false;                 ///< Each row has an entry for a calendar.
  Rows rows;
  std::vector<std::string> elsewhere;  ///< Who waits on other lists: no one is lost between two of them.
};

/// What a cell says in text: empty for null.
std::string plain(const nlohmann::json& cell);

/// How many rows have each value of a key, in the order of the first of them.
struct Total {
  std::string key;
  std::vector<std::pair<std::string, std::uint64_t>> counts;
};
/// One for each of WorkList::total_by, counted while the rows are made.
class Totals {
 public:
  explicit Totals(const WorkList& list);
  void count(const WorkListRow& row);
  const std::vector<Total>& all() const { return totals_; }

 private:
  std::vector<std::size_t> columns_;
  std::vector<Total> totals_;
};

/// What a reader needs to judge a list by itself, each a sentence: its filters and how many they left out,
/// its totals, how it adds up with the others. Empty ones are left out.
std::vector<std::string> filter_lines(const WorkList& list);
std::vector<std::string> closing_lines(const WorkList& list, const Totals& totals);

/// At most 100 characters wide; ends with the caution.
void write_text(std::ostream& out, const WorkList& list);

/// `{"list":..,"as_of":..,"stamp":..,"count":..,"rows":[{..}],"caution":..}`, one line with its line feed.
void write_json(std::ostream& out, const WorkList& list);

}  // namespace cli
