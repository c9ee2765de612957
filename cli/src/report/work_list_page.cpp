#include "report/work_list_page.h"

#include "report/caution.h"

namespace cli {

namespace {

// Sheet numbers stand in the margin, where the browser supports margin boxes (CSS Paged Media Level 3).
constexpr std::string_view style = R"(
@page { size: A4 landscape; margin: 12mm 10mm 14mm;
  @bottom-right { content: "sheet " counter(page) " of " counter(pages); font: 8pt sans-serif; } }
body { font: 9pt/1.3 sans-serif; color: #000; background: #fff; margin: 1em; }
h1 { font-size: 13pt; margin: 0 0 .2em; }
p { margin: .2em 0; max-width: 110em; }
.d { white-space: nowrap; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
caption { text-align: left; font-weight: bold; padding: .2em 0; }
th, td { border: 1px solid #666; padding: 2px 4px; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
thead th { background: #e8e8e8; }
thead .of { font-weight: normal; background: #fff; border: 0; padding: 0 0 3px; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
td.n { text-align: right; white-space: nowrap; }
td div + div { margin-top: 1px; }
@media print { body { margin: 0; font-size: 8pt; } }
)";

std::string paragraph(std::string_view text) {
  return text.empty() ? "" : "<p>" + html_text(text) + "</p>\n";
}

std::vector<std::string> headings_of(const WorkList& list) {
  return list.columns.empty() ? list.keys : list.columns;
}

std::vector<std::vector<std::string>> cells_of(const WorkListRow& row) {
  if (!row.print.empty()) return row.print;
  std::vector<std::vector<std::string>> cells;
  for (const nlohmann::json& cell : row.cells) cells.push_back({plain(cell)});
  return cells;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_date(std::string_view text) {
  constexpr std::string_view shape = "0000-00-00";
  for (std::size_t i = 0; i < shape.size(); ++i) {
    if (i >= text.size() || (shape[i] == '0' ? !is_digit(text[i]) : text[i] != shape[i])) return false;
  }
  return true;
}

// A date is not broken over two lines, where it is misread.
std::string with_dates_whole(std::string_view text) {
  constexpr std::size_t date_length = 10;
  std::string out, between;
  for (std::size_t at = 0; at < text.size();) {
    if (!is_date(text.substr(at))) {
      between += text[at++];
      continue;
    }
    out += html_text(between) + "<span class=\"d\">" + std::string(text.substr(at, date_length)) + "</span>";
    between.clear();
    at += date_length;
  }
  return out + html_text(between);
}

// The second column says whom the row is about: it heads the row.
std::string html_of(const WorkListRow& row, std::uint64_t number, std::uint64_t count) {
  std::string text = "<tr><td class=\"n\">" + std::to_string(number) + "/" + std::to_string(count) + "</td>";
  bool first = true;
  for (const std::vector<std::string>& lines : cells_of(row)) {
    text += first ? "<th scope=\"row\">" : "<td>";
    for (const std::string& line : lines) {
      if (!line.empty()) text += "<div>" + with_dates_whole(line) + "</div>";
    }
    text += first ? "</th>" : "</td>";
    first = false;
  }
  return text + "</tr>\n";
}

// On each sheet: what list it is of, what was left out, and from which state of the ledger it was made.
std::string head_of(const WorkList& list, const std::string& title) {
  const std::vector<std::string> headings = headings_of(list);
  std::string of = html_text(title);
  for (const std::string& line : filter_lines(list)) of += ". " + html_text(line);
  std::string text = "<thead>\n<tr><th class=\"of\" colspan=\"" + std::to_string(headings.size() + 1) +
                     "\">" + of + "<div class=\"stamp\">" + html_text(list.stamp) +
                     "</div></th></tr>\n<tr><th scope=\"col\">no.</th>";
  for (const std::string& heading : headings) text += "<th scope=\"col\">" + html_text(heading) + "</th>";
  return text + "</tr>\n</thead>\n";
}

void write_table(std::ostream& out, const WorkList& list, const std::string& title, Totals& totals) {
  if (!list.rows.empty()) out << "<table>\n" << head_of(list, title) << "<tbody>\n";
  std::uint64_t number = 0;
  list.rows.each([&](const WorkListRow& row) {
    totals.count(row);
    out << html_of(row, ++number, list.rows.size());
  });
  if (!list.rows.empty()) out << "</tbody>\n</table>\n";
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string escaped;
  for (const char c : text) {
    switch (c) {
      case '&':
        escaped += "&amp;";
        break;
      case '<':
        escaped += "&lt;";
        break;
      case '>':
        escaped += "&gt;";
        break;
      case '"':
        escaped += "&quot;";
        break;
      default:
        escaped += c;
    }
  }
  return escaped;
}

void write_html(std::ostream& out, const WorkList& list) {
  const std::string count = list.rows.empty() ? "no one" : std::to_string(list.rows.size());
  const std::string title = list.title + ": " + count + ", as of " + list.as_of;
  out << "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n<title>"
      << html_text(title) << "</title>\n<style>" << style << "</style>\n</head>\n<body>\n<h1>"
      << html_text(title) << "</h1>\n"
      << paragraph(list.meaning);
  for (const std::string& line : filter_lines(list)) out << paragraph(line);
  out << paragraph("Next: " + list.next);
  Totals totals(list);
  write_table(out, list, title, totals);
  out << paragraph("End of the list: " + count + ".");
  for (const std::string& line : closing_lines(list, totals)) out << paragraph(line);
  for (const std::string& other : list.elsewhere) out << paragraph(other);
  out << paragraph(list.stamp) << paragraph(caution) << "</body>\n</html>\n";
}

}  // namespace cli
