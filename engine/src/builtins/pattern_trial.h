// Matching by trying one way after another, for patterns that refer back or take sets of characters apart.

#pragma once

#include "builtins/pattern_matcher.h"

namespace engine {

class PatternTrial {
 public:
  PatternTrial(const PatternMatcher& matcher, std::string_view text, const std::function<bool()>& step);

  PatternMatcher::Found find(std::size_t from, std::vector<std::string_view>& groups);

 private:
  /// What must match from a byte of the text on, for the whole to match.
  using Rest = std::function<bool(std::size_t)>;
  struct Capture {
    std::size_t start = std::string_view::npos;
    std::size_t end = 0;
  };

  bool match(const PatternNode& node, std::size_t at, const Rest& rest);
  bool sequence(std::span<const PatternNode> nodes, std::size_t at, const Rest& rest);
  bool group(const PatternNode& node, std::size_t at, const Rest& rest);
  bool repeat(const PatternNode& node, std::uint32_t done, std::size_t at, const Rest& rest);
  bool repeat_character(const PatternNode& node, std::size_t at, const Rest& rest);
  bool refer_back(const PatternNode& node, std::size_t at, const Rest& rest);
  bool is_line_start(std::size_t at) const;
  bool is_line_end(std::size_t at) const;
  bool holds(const CharacterSet& set, std::string_view character) const;
  std::string_view character_at(std::size_t at) const;

  const PatternMatcher& matcher_;
  std::string_view text_;
  const std::function<bool()>& step_;
  std::vector<Capture> captures_;
  std::uint32_t depth_ = 0;
  bool gave_up_ = false;
};

}  // namespace engine
