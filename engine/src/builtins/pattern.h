// Regular expressions as FEEL has them, as trees.
//
// Source: XQuery 1.0 and XPath 2.0 Functions and Operators, 7.6.1 (syntax and flags), on top of XML Schema
// Part 2, appendix F. Beyond the standard, `(?:...)` groups without capturing, as in XPath 3.0.
//
// Departures: an unassigned code point counts neither as a word character (`\w`) nor as its opposite (`\W`),
// and
// `\p{C}` leaves it out; the category `\p{Cn}` is not known; within brackets, flag `i` also folds `\p{Lu}`
// and its like.

#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

/// The flags s, m, i and x.
struct PatternFlags {
  bool dot_all = false;  ///< `.` stands for line ends as well.
  bool lines = false;    ///< `^` and `$` also match at line ends.
  bool ignore_case = false;
  bool spaced = false;  ///< White space in the pattern does not count, but in brackets.
};

/// No value when `text` holds anything but these letters.
std::optional<PatternFlags> parse_pattern_flags(std::string_view text);

/// What may stand for one character: RE2's syntax for it, and what is taken out (`[a-z-[aeiou]]`).
struct CharacterSet {
  std::string re2;
  std::unique_ptr<CharacterSet> except;
};

struct PatternNode {
  enum class Kind : std::uint8_t { character, start, end, sequence, choice, repeat, group, back_reference };
  static constexpr std::uint32_t no_limit = std::numeric_limits<std::uint32_t>::max();

  Kind kind = Kind::sequence;
  CharacterSet set;
  std::vector<PatternNode> children;
  std::uint32_t least = 0;   ///< Of a repeat.
  std::uint32_t most = 0;    ///< Of a repeat; `no_limit` when there is none.
  bool lazy = false;         ///< A repeat takes as few as it can.
  std::uint32_t number = 0;  ///< Of the group, or of the group referred to; 0 when it captures nothing.
};

struct Pattern {
  PatternNode root;
  std::uint32_t groups = 0;
  bool has_start = false;        ///< `^` stands in it.
  bool beyond_automata = false;  ///< It refers back or takes sets apart, which RE2 cannot.
};

/// No value when `text` is no pattern; `fault` then says why.
std::optional<Pattern> parse_pattern(std::string_view text, const PatternFlags& flags, std::string& fault);

/// The inside of brackets, in RE2's syntax, for the escape that starts at `text[at]`, after its backslash:
/// `d`, `p{Lu}` ... Moves `at` behind it. No value when there is no such escape.
std::optional<std::string> parse_set_escape(std::u32string_view text, std::size_t& at);

/// The character that `\n`, `\.` and their like stand for. No value for other escapes.
std::optional<char32_t> escaped_character(char32_t letter);

/// `a` to `b`, for the inside of brackets in RE2's syntax.
std::string re2_range(char32_t a, char32_t b);

}  // namespace engine
