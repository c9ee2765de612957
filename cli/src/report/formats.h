// A list in the form that was asked for.

#pragma once

#include <ostream>
#include <string>

#include "report/calendar.h"
#include "report/work_list.h"

namespace cli {

/// `format` is `text`, `json`, `csv`, `html` or `ics`. Fails as wrong usage when the list has no days to put
/// into a calendar.
void write(std::ostream& out, const WorkList& list, const std::string& format, Names names);

}  // namespace cli
