// Lines of at most 100 columns: a first line, then labelled paragraphs whose text hangs beside the label.

#pragma once

#include <string>
#include <string_view>

namespace engine {

class Paragraphs {
 public:
  static constexpr std::size_t columns = 100;

  /// A line of its own, wrapped at the left edge.
  void headline(std::string_view text);
  /// `label` and, beside it, `text`. The same label as before, or none, continues below.
  void add(std::string_view label, std::string_view text);
  /// A further line of the paragraph before, `deeper` columns to the right.
  void add_below(std::string_view text, std::size_t deeper);

  std::string text() && { return std::move(out_); }

 private:
  void wrap(std::string_view text, std::size_t first_indent, std::size_t indent);

  std::string out_;
  std::string label_;
};

}  // namespace engine
