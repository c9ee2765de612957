// Finds a pattern in a text: by RE2, whose time is bounded by pattern times text; what RE2 cannot do, by
// trying.

#pragma once

#include <re2/re2.h>

#include <functional>
#include <span>

#include "builtins/pattern.h"

namespace engine {

class PatternMatcher {
 public:
  /// No value when `pattern` is no pattern, or RE2 finds it too large; `fault` then says why.
  static std::unique_ptr<PatternMatcher> make(std::string_view pattern, const PatternFlags& flags,
                                              std::string& fault);

  enum class Found : std::uint8_t { no, yes, gave_up };

  /// The first match in `text` at `from` or later. `groups[0]` is the whole match, the others what the groups
  /// captured, without data where a group took no part. Gives up when `step` says no, or when a way of
  /// matching would nest too deep.
  Found find(std::string_view text, std::size_t from, std::vector<std::string_view>& groups,
             const std::function<bool()>& step) const;

  std::uint32_t groups() const { return pattern_.groups; }

 private:
  PatternMatcher(Pattern pattern, const PatternFlags& flags);
  void compile_sets(const PatternNode& node);
  void compile_set(const CharacterSet& set);

  Pattern pattern_;
  PatternFlags flags_;
  std::unique_ptr<re2::RE2> automaton_;  ///< None when the pattern is beyond automata.
  /// Each set of characters by itself, in the order of the tree: for trying.
  std::vector<std::pair<const CharacterSet*, std::unique_ptr<re2::RE2>>> sets_;

  friend class PatternTrial;
};

}  // namespace engine
