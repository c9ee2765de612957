#include "rulesets/page.h"

#include "report/caution.h"
#include "report/layout.h"
#include "report/tables.h"
#include "rulesets/page_parts.h"

namespace cli {

namespace {

using Kind = PagePart::Kind;

std::string replaced(const std::string& text, char wanted, std::string_view by) {
  std::string out;
  for (const char c : text) {
    if (c == wanted) {
      out += by;
    } else {
      out += c;
    }
  }
  return out;
}

// --- Markdown
// -------------------------------------------------------------------------------------------------------

// What Markdown would read as its own: emphasis, links, HTML, the borders of a table.
std::string in_markdown(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '*' || c == '_' || c == '[' || c == ']' || c == '<' || c == '|' || c == '`' || c == '\\')
      out += '\\';
    out += c;
  }
  return out;
}

std::string markdown_row(const std::vector<std::string>& cells) {
  std::string line = "|";
  for (const std::string& cell : cells) line += " " + in_markdown(cell) + (cell.empty() ? "|" : " |");
  return line + "\n";
}

std::string markdown_table(const PagePart& part) {
  std::string text = markdown_row(part.headings) + "|";
  for (std::size_t i = 0; i < part.headings.size(); ++i) text += "---|";
  text += "\n";
  for (const auto& row : part.rows) text += markdown_row(row);
  return text;
}

// --- HTML
// -----------------------------------------------------------------------------------------------------------

std::string in_html(const std::string& text) {
  return replaced(replaced(replaced(replaced(text, '&', "&amp;"), '<', "&lt;"), '>', "&gt;"), '"', "&quot;");
}

std::string html_row(const std::vector<std::string>& cells, const std::string& tag) {
  std::string line = "<tr>";
  for (const std::string& cell : cells) line += "<" + tag + ">" + in_html(cell) + "</" + tag + ">";
  return line + "</tr>\n";
}

std::string html_table(const PagePart& part) {
  std::string text = "<table>\n";
  bool titled = false;
  for (const std::string& heading : part.headings) titled = titled || !heading.empty();
  if (titled) text += "<thead>" + html_row(part.headings, "th") + "</thead>\n";
  text += "<tbody>\n";
  for (const auto& row : part.rows) text += html_row(row, "td");
  return text + "</tbody>\n</table>\n";
}

constexpr std::string_view style =
    "body{font:16px/1.45 sans-serif;max-width:75em;margin:1em auto;padding:0 1em;color:#111}"
    "table{border-collapse:collapse;margin:.5em 0}td,th{border:1px solid #999;padding:.25em "
    ".5em;text-align:left;"
    "vertical-align:top}pre{background:#f3f3f3;padding:.5em;white-space:pre-wrap}"
    "@media print{body{font-size:10pt}}";

}  // namespace

std::string text_page(const engine::Ruleset& ruleset) {
  std::string text = text_of(ruleset) + "\nDefinitions\n";
  for (const engine::ElementView& element : ruleset.model->elements()) {
    if (element.kind == engine::ElementView::Kind::input || element.name == "About") continue;
    if (element.text.empty() && element.description.empty()) continue;
    const bool shared = element.namespace_name != ruleset.model->namespace_name();
    text += wrapped("  " + element.name + (shared ? "  (shared: " + element.namespace_name + ")" : ""), 4);
    if (!element.description.empty()) text += wrapped("    " + element.description, 4);
    if (!element.text.empty()) text += wrapped("    = " + element.text, 6);
  }
  text += '\n';
  for (const engine::TableView& table : ruleset.model->tables()) text += text_of(table) + "\n";
  return text;
}

std::string markdown_page(const engine::Ruleset& ruleset) {
  std::string text;
  for (const PagePart& part : page_parts(ruleset)) {
    if (!text.empty()) text += "\n";
    switch (part.kind) {
      case Kind::heading:
        text += (text.empty() ? "# " : "## ") + in_markdown(part.text) + "\n";
        break;
      case Kind::subheading:
        text += "### " + in_markdown(part.text) + "\n";
        break;
      case Kind::paragraph:
        text += in_markdown(part.text) + "\n";
        break;
      case Kind::table:
        text += markdown_table(part);
        break;
      case Kind::code:
        text += "```feel\n" + part.text + "```\n";
        break;
    }
  }
  return text + "\n" + std::string(caution) + "\n";
}

std::string html_page(const engine::Ruleset& ruleset) {
  const std::vector<PagePart> parts = page_parts(ruleset);
  std::string text = "<!doctype html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n<title>" +
                     in_html(parts.front().text) + "</title>\n<style>" + std::string(style) +
                     "</style>\n</head>\n<body>\n";
  bool first = true;
  for (const PagePart& part : parts) {
    const std::string words = in_html(part.text);
    switch (part.kind) {
      case Kind::heading:
        text += first ? "<h1>" + words + "</h1>\n" : "<h2>" + words + "</h2>\n";
        break;
      case Kind::subheading:
        text += "<h3>" + words + "</h3>\n";
        break;
      case Kind::paragraph:
        text += "<p>" + words + "</p>\n";
        break;
      case Kind::table:
        text += html_table(part);
        break;
      case Kind::code:
        text += "<pre>" + words + "</pre>\n";
        break;
    }
    first = false;
  }
  return text + "<p>" + in_html(std::string(caution)) + "</p>\n</body>\n</html>\n";
}

}  // namespace cli
