// Text for a terminal or a printed page: wrapped lines and columns, at most 100 characters wide.

#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

inline constexpr std::size_t page_width = 100;

/// Characters as a terminal counts them: code points, combining marks counted too.
std::size_t width_of(std::string_view text);

/// The first `width` characters of `text`; an ellipsis stands for what was cut off.
std::string cut_to(std::string_view text, std::size_t width);

/// `text` broken between words so that no line is wider than the page, each line after the first indented by
/// `indent`. Line breaks in it become spaces. Ends in a line feed.
std::string wrapped(std::string_view text, std::size_t indent = 0, std::size_t width = page_width);

/// Rows below their headings. Where they are wider than the page, the widest columns are narrowed.
class Columns {
 public:
  explicit Columns(std::vector<std::string> headings) : headings_(std::move(headings)) {}
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  std::string text() const;

 private:
  std::vector<std::string> headings_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace cli
