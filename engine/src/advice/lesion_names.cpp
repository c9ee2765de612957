#include "engine/lesion_names.h"

#include <algorithm>
#include <charconv>
#include <optional>

namespace engine {

namespace {

constexpr std::string_view path_start = "exam.lesions";

/// Takes `[3]` off the front of `rest`.
std::optional<std::size_t> place(std::string_view& rest) {
  if (!rest.starts_with('[')) return std::nullopt;
  std::size_t number = 0;
  const auto [end, fault] = std::from_chars(rest.data() + 1, rest.data() + rest.size(), number);
  if (fault != std::errc() || end == rest.data() + rest.size() || *end != ']') return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()) + 1);
  return number;
}

/// Takes `.histology.type` off the front of `rest`: ` histology type`.
std::string keys(std::string_view& rest) {
  const auto is_of_path = [](char c) { return (c >= 'a' && c <= 'z') || c == '_' || c == '.'; };
  const auto length =
      static_cast<std::size_t>(std::find_if_not(rest.begin(), rest.end(), is_of_path) - rest.begin());
  std::string words(rest.substr(0, length));
  rest.remove_prefix(length);
  constexpr std::string_view millimetres = "size_mm";
  if (words.ends_with(millimetres)) words.replace(words.size() - 3, 3, " in mm");
  std::replace_if(
      words.begin(), words.end(), [](char c) { return c == '.' || c == '_'; }, ' ');
  return words;
}

/// Takes the places and keys that follow `exam.lesions` off the front of `rest`; nothing when they are not
/// such.
std::optional<std::string> name(std::string_view& rest, const std::vector<std::string>& ids) {
  std::string_view left = rest;
  std::string names;
  bool several = false;
  for (std::string_view before;;) {
    const auto at = place(left);
    if (!at || *at >= ids.size()) return std::nullopt;
    names += std::string(before) + ids[*at];
    before = left.starts_with(" to [") ? " to " : left.starts_with(", [") ? ", " : "";
    if (before.empty()) break;
    several = true;
    left.remove_prefix(before.size());
  }
  std::string text = (several ? "lesions " : "lesion ") + names;
  text += keys(left);
  rest = left;
  return text;
}

}  // namespace

std::string with_lesion_names(std::string_view text, const std::vector<std::string>& ids) {
  std::string told;
  while (!text.empty()) {
    const std::size_t at = text.find(path_start);
    told += text.substr(0, at);
    if (at == std::string_view::npos) break;
    text.remove_prefix(at + path_start.size());
    const auto named = name(text, ids);
    told += named ? *named : std::string(path_start);
  }
  return told;
}

}  // namespace engine
