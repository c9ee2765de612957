// A list that someone works through, apart from how it is shown: as text, JSON, CSV (csv.h), a page for print
// (work_list_page.h) or calendar entries (calendar.h).

#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/calendar.h"

namespace cli {

/// A line as an all-day entry of a calendar.
struct CalendarEntry {
  engine::Date day;
  std::string key;      ///< What it is about, the same for as long as that lives: `recall:R12`.
  std::string summary;  ///< Names no person.
  std::string person;   ///< Who it is about: shown only when names are asked for.
  std::string description;
  std::string changed_at;     ///< UTC instant of the last change, `2026-03-10T09:15:00.000Z`.
  std::int64_t sequence = 0;  ///< Changes since it was made.
  bool confirmed = false;     ///< An appointment was made.
};

/// One person's line on a list.
struct WorkListRow {
  std::vector<nlohmann::json> cells;  ///< One for each of WorkList::keys: text, whole number, or null.
  std::string headline;               ///< For text: what must be seen at a glance.
  std::vector<std::string> details;   ///< For text: what comes below it.
  std::vector<std::vector<std::string>> print = {};  ///< The lines of each of WorkList::columns.
  std::optional<CalendarEntry> entry = {};           ///< None where the line has no day.
};

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
  std::vector<WorkListRow> rows;
  std::vector<std::string> elsewhere;  ///< Who waits on other lists: no one is lost between two of them.
};

/// What a cell says in text: empty for null.
std::string plain(const nlohmann::json& cell);

/// How many rows have each value of a key, in the order of the first of them.
struct Total {
  std::string key;
  std::vector<std::pair<std::string, std::uint64_t>> counts;
};
/// One for each of WorkList::total_by.
std::vector<Total> totals_of(const WorkList& list);

/// What a reader needs to judge a list by itself, each a sentence: its filters and how many they left out,
/// its totals, how it adds up with the others. Empty ones are left out.
std::vector<std::string> filter_lines(const WorkList& list);
std::vector<std::string> closing_lines(const WorkList& list);

/// At most 100 characters wide; ends with the caution.
std::string text_of(const WorkList& list);

/// `{"list":..,"as_of":..,"stamp":..,"count":..,"rows":[{..}],"caution":..}`, one line with its line feed.
std::string json_of(const WorkList& list);

}  // namespace cli
