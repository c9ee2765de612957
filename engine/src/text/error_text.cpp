// One Error as a person reads it. The form is shown in result.h.

#include <algorithm>

#include "engine/result.h"
#include "text/printable.h"

namespace engine {

namespace {

// A line of JSON can be thousands of characters long: only what stands around the fault is shown.
constexpr std::size_t widest_excerpt = 100;
constexpr std::size_t shown_before = 60;
constexpr std::size_t gutter = 5;

std::string where(const Place& place) {
  std::string out = printable(place.source);
  if (place.line > 0) {
    if (!out.empty()) out += ':';
    out += std::to_string(place.line);
    if (place.column > 0) out.append(":").append(std::to_string(place.column));
  }
  if (!place.path.empty()) {
    if (!out.empty()) out += ": ";
    out += printable(place.path);
  }
  return out;
}

/// The part of the excerpt that is shown, and where the carets stand in it.
struct Window {
  std::string text;
  std::size_t caret = 0;  // code points before it
  std::size_t carets = 1;
};

// `text` is printable: every character in it has a length.
std::string characters(std::string_view text, std::size_t from, std::size_t count) {
  std::size_t start = 0;
  while (from-- > 0 && start < text.size()) start += character_length(text, start);
  std::size_t end = start;
  while (count-- > 0 && end < text.size()) end += character_length(text, end);
  return std::string(text.substr(start, end - start));
}

Window window_around(const Place& place) {
  const std::string line = printable(place.excerpt);
  const std::size_t length = count_code_points(line);
  const std::size_t column = place.column > 0 ? place.column - 1 : 0;
  Window window{line, std::min(column, length), std::max<std::size_t>(place.length, 1)};
  if (length > widest_excerpt) {
    const std::size_t last_start = length - widest_excerpt;
    const std::size_t from =
        std::min(window.caret > shown_before ? window.caret - shown_before : 0, last_start);
    window.text = characters(line, from, widest_excerpt);
    window.caret -= from;
    if (from > 0) {
      window.text.insert(0, "…");
      ++window.caret;
    }
    if (from < last_start) window.text += "…";
  }
  const std::size_t room =
      count_code_points(window.text) - std::min(window.caret, count_code_points(window.text));
  window.carets = std::clamp<std::size_t>(window.carets, 1, std::max<std::size_t>(room, 1));
  return window;
}

void append_excerpt(std::string& out, const Place& place) {
  const Window window = window_around(place);
  const std::string number = place.line > 0 ? std::to_string(place.line) : std::string();
  if (number.size() < gutter) out.append(gutter - number.size(), ' ');
  out.append(number).append(" | ").append(window.text).append("\n");
  if (place.column == 0) return;
  out.append(std::max(gutter, number.size()), ' ').append(" | ");
  out.append(window.caret, ' ').append(window.carets, '^').append("\n");
}

}  // namespace

std::string text_of(const Error& error) {
  std::string out = where(error.place);
  if (!out.empty()) out += ": ";
  out.append("error: ").append(error.message).append("\n");
  if (!error.place.excerpt.empty()) append_excerpt(out, error.place);
  if (!error.help.empty()) out.append("  help: ").append(error.help).append("\n");
  return out;
}

}  // namespace engine
