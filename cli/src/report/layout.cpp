#include "report/layout.h"

#include <algorithm>
#include <numeric>

namespace cli {

namespace {

bool begins_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0) != 0x80;
}

constexpr std::size_t gap = 2;        // between columns
constexpr std::size_t narrowest = 6;  // a column is not cut below this

void narrow_to_page(std::vector<std::size_t>& widths) {
  const auto total = [&] {
    return std::accumulate(widths.begin(), widths.end(), std::size_t{0}) + gap * (widths.size() - 1);
  };
  while (total() > page_width) {
    const auto widest = std::max_element(widths.begin(), widths.end());
    if (*widest <= narrowest) return;
    --*widest;
  }
}

std::string line_of(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) {
  std::string line;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const std::string cell = i < cells.size() ? cut_to(cells[i], widths[i]) : "";
    line += cell;
    if (i + 1 < widths.size()) line.append(widths[i] - width_of(cell) + gap, ' ');
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

}  // namespace

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_character));
}

std::string cut_to(std::string_view text, std::size_t width) {
  if (width_of(text) <= width) return std::string(text);
  std::string kept;
  std::size_t characters = 0;
  for (const char byte : text) {
    if (begins_character(byte) && ++characters == width) break;
    kept += byte;
  }
  return kept + "…";
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
  std::string out;
  std::size_t column = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = text.find_first_not_of(" \n\t", at);
    if (begin == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \n\t", begin), text.size());
    const std::string_view word = text.substr(begin, end - begin);
    const std::size_t spaces = at == 0 ? begin : begin - at;  // kept: a caller aligns with them
    if (column > 0 && column + spaces + width_of(word) > width) {
      out += "\n" + std::string(indent, ' ');
      column = indent;
    } else {
      out.append(spaces, ' ');
      column += spaces;
    }
    out += word;
    column += width_of(word);
    at = end;
  }
  return out + "\n";
}

std::string Columns::text() const {
  std::vector<std::size_t> widths;
  for (const std::string& heading : headings_) widths.push_back(width_of(heading));
  for (const auto& row : rows_) {
    for (std::size_t i = 0; i < widths.size() && i < row.size(); ++i)
      widths[i] = std::max(widths[i], width_of(row[i]));
  }
  narrow_to_page(widths);
  std::string out = line_of(headings_, widths);
  std::vector<std::string> rules;
  for (const std::size_t width : widths) rules.emplace_back(width, '-');
  out += line_of(rules, widths);
  for (const auto& row : rows_) out += line_of(row, widths);
  return out;
}

}  // namespace cli
