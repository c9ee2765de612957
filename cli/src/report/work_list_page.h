// A list as a page that prints: A4 landscape, its heading repeated on each sheet, rows kept whole and
// numbered `3/47`, so that a missing sheet shows. One file: nothing else is fetched, and no script runs.

#pragma once

#include <string>
#include <string_view>

#include "report/work_list.h"

namespace cli {

/// HTML 5 with the list's columns; its keys and cells where it has none.
void write_html(std::ostream& out, const WorkList& list);

/// Text that stands for itself in HTML, also within an attribute.
std::string html_text(std::string_view text);

}  // namespace cli
