#include "report/formats.h"

#include <algorithm>

#include "failure.h"
#include "report/csv.h"
#include "report/work_list_page.h"

namespace cli {

std::string written(const WorkList& list, const std::string& format, Names names) {
  if (format == "json") return json_of(list);
  if (format == "csv") return csv_of(list);
  if (format == "html") return html_of(list);
  if (format != "ics") return text_of(list);
  const bool has_days = std::all_of(list.rows.begin(), list.rows.end(),
                                    [](const WorkListRow& row) { return row.entry.has_value(); });
  if (!has_days) {
    fail(ExitCode::wrong_usage, {"no_days",
                                 "the list `" + list.name + "` has no days to put into a calendar",
                                 {},
                                 "ask for it as text, csv, html or json"});
  }
  return calendar_of(list, names);
}

}  // namespace cli
