#include "lists/census.h"

#include <algorithm>

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/csv.h"
#include "report/layout.h"

namespace cli {

namespace {

using ledger::MonthEnd;
using nlohmann::json;

const std::vector<std::string> keys = {"month_end",     "open_before",   "opened",      "reopened",
                                       "taken_back",    "answered",      "closed",      "handed_over",
                                       "open",          "due",           "late",        "late_4_weeks",
                                       "late_12_weeks", "late_26_weeks", "late_longer", "reconciles"};

std::vector<json> cells_of(const MonthEnd& end) {
  return {engine::text_of(end.day),
          end.open_before,
          end.opened,
          end.reopened,
          end.taken_back,
          end.answered,
          end.closed,
          end.handed_over,
          end.open,
          end.due,
          end.late,
          end.late_weeks[0],
          end.late_weeks[1],
          end.late_weeks[2],
          end.late_weeks[3],
          end.reconciles()};
}

std::string number(std::uint64_t count) {
  return std::to_string(count);
}

std::string closing_line(const CensusPage& page) {
  if (page.ends.months.empty()) return "No recall was opened yet.";
  const MonthEnd& last = page.ends.months.back();
  std::string text = "Open before " + number(last.open_before) + " + opened " + number(last.came()) +
                     " - ended " + number(last.went()) + " = open now " + number(last.open) + ".";
  if (page.ends.is_now) text += " The lists hold " + number(page.ends.listed) + ".";
  return text + (adds_up(page) ? "" : " THIS DOES NOT ADD UP; run `dueward audit verify`.");
}

}  // namespace

bool adds_up(const CensusPage& page) {
  const auto& months = page.ends.months;
  if (!std::all_of(months.begin(), months.end(), [](const MonthEnd& end) { return end.reconciles(); }))
    return false;
  const std::uint64_t open = months.empty() ? 0 : months.back().open;
  return !page.ends.is_now || open == page.ends.listed;
}

std::string text_of(const CensusPage& page) {
  std::string text = wrapped("Open recalls at each month's end, as of " + page.as_of);
  text += wrapped(
      "Counted from the entries by the UTC day on which they were written. Opened: new, reopened, taken "
      "back. "
      "Ended: answered by an examination, closed by a clinician, handed over. Due and late as the lists "
      "`due` and `overdue` count them on that day; weeks late from the late date.");
  text += wrapped(page.stamp) + "\n";
  Columns columns({"month end", "before", "opened", "ended", "open", "due", "late", "to 4 wk", "to 12",
                   "to 26", "over 26"});
  for (const MonthEnd& end : page.ends.months) {
    columns.add({engine::text_of(end.day) + (end.reconciles() ? "" : " !"), number(end.open_before),
                 number(end.came()), number(end.went()), number(end.open), number(end.due), number(end.late),
                 number(end.late_weeks[0]), number(end.late_weeks[1]), number(end.late_weeks[2]),
                 number(end.late_weeks[3])});
  }
  return text + columns.text() + "\n" + wrapped(closing_line(page)) + std::string(caution) + "\n";
}

std::string csv_of(const CensusPage& page) {
  std::string text = csv_line({keys.begin(), keys.end()});
  for (const MonthEnd& end : page.ends.months) text += csv_line(cells_of(end));
  return text;
}

std::string json_of(const CensusPage& page) {
  json months = json::array();
  for (const MonthEnd& end : page.ends.months) {
    const std::vector<json> cells = cells_of(end);
    json month = json::object();
    for (std::size_t i = 0; i < keys.size(); ++i) month[keys[i]] = cells[i];
    months.push_back(std::move(month));
  }
  return engine::canonical_json({{"as_of", page.as_of},
                                 {"stamp", page.stamp},
                                 {"months", std::move(months)},
                                 {"open_on_the_lists", page.ends.listed},
                                 {"adds_up", adds_up(page)},
                                 {"caution", caution}}) +
         "\n";
}

}  // namespace cli
