#include "report/formats.h"

#include "failure.h"
#include "report/csv.h"
#include "report/work_list_page.h"

namespace cli {

void write(std::ostream& out, const WorkList& list, const std::string& format, Names names) {
  if (format == "json") return write_json(out, list);
  if (format == "csv") return write_csv(out, list);
  if (format == "html") return write_html(out, list);
  if (format != "ics") return write_text(out, list);
  if (!list.dated) {
    fail(ExitCode::wrong_usage, {"no_days",
                                 "the list `" + list.name + "` has no days to put into a calendar",
                                 {},
                                 "ask for it as text, csv, html or json"});
  }
  write_calendar(out, list, names);
}

}  // namespace cli
