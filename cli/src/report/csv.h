// Comma-separated values that other programs read and a spreadsheet may open.
// Sources: RFC 4180; OWASP, CSV Injection (formulas in cells).

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/work_list.h"

namespace cli {

/// One cell. Text that a spreadsheet would take for a formula (it begins with = + - @, their full-width
/// forms, a tab or a line break) gets an apostrophe in front; whoever reads it back takes off one apostrophe
/// that stands before such a character. Quoted when it holds a comma, a quote or a line break, or begins or
/// ends with a space.
std::string csv_cell(std::string_view text);

/// A cell of a list: numbers stand as they are, a minus in front of one is no formula.
std::string csv_cell(const nlohmann::json& cell);

/// Cells with commas between, and CR LF.
std::string csv_line(const std::vector<nlohmann::json>& cells);

/// A heading line, then a line for each row, each ending with the day and the ledger's head that it is from.
void write_csv(std::ostream& out, const WorkList& list);

}  // namespace cli
