#include "letters/plain_page.h"

#include <algorithm>
#include <string_view>

#include "report/layout.h"

namespace cli {

namespace {

/// What hangs below the first word of a list's line; at most a few places.
std::size_t indent_of(std::string_view line) {
  constexpr std::size_t deepest = 8;
  const std::size_t first = line.find_first_not_of(" -");
  return first == std::string_view::npos ? 0 : std::min(first, deepest);
}

/// The line with spaces in words that would run off the paper. A terminal may leave such a word whole, to be
/// copied; a letter may not.
std::string with_long_words_broken(std::string_view line) {
  constexpr std::size_t longest = letter_width - 8;  // also where it is indented
  std::string out;
  std::size_t characters = 0;
  for (const char c : line) {
    const bool begins = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (begins && characters == longest && c != ' ') {
      out += ' ';
      characters = 0;
    }
    characters = c == ' ' ? 0 : characters + (begins ? 1 : 0);
    out += c;
  }
  return out;
}

/// No more than one empty line between two parts, whatever sections were left out.
std::string without_gaps(const std::string& text) {
  std::string out;
  int line_feeds = 0;
  for (const char c : text) {
    line_feeds = c == '\n' ? line_feeds + 1 : 0;
    if (line_feeds <= 2) out += c;
  }
  return out;
}

}  // namespace

std::string laid_out(const std::string& text) {
  std::string lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = with_long_words_broken(std::string_view(text).substr(at, end - at));
    lines += wrapped(line, indent_of(line), letter_width);
    at = end + 1;
  }
  return without_gaps(lines);
}

}  // namespace cli
