#include "reception/json_lines.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace ledger {

namespace {

constexpr std::string_view white = " \t\r\n";

bool is_object(std::string_view text) {
  return !text.empty() && text.front() == '{' && nlohmann::json::accept(text.begin(), text.end());
}

std::vector<Part> lines_of(std::string_view input) {
  std::vector<Part> lines;
  for (std::uint32_t line = 1; !input.empty(); ++line) {
    const auto end = std::min(input.find('\n'), input.size());
    std::string_view text = input.substr(0, end);
    input.remove_prefix(std::min(end + 1, input.size()));
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    if (text.find_first_not_of(white) != std::string_view::npos) lines.push_back({line, text});
  }
  return lines;
}

}  // namespace

std::vector<Part> parts_of(std::string_view input) {
  if (input.starts_with("\xEF\xBB\xBF")) input.remove_prefix(3);  // a byte order mark
  std::vector<Part> lines = lines_of(input);
  if (lines.size() < 2) return lines;
  const bool by_lines =
      std::any_of(lines.begin(), lines.end(), [](const Part& part) { return is_object(part.text); });
  if (by_lines) return lines;
  const char* first = lines.front().text.data();
  const char* last = lines.back().text.data() + lines.back().text.size();
  return {{lines.front().line, std::string_view(first, static_cast<std::size_t>(last - first))}};
}

}  // namespace ledger
