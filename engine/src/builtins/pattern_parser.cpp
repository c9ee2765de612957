// Text to pattern tree.

#include <algorithm>

#include "builtins/pattern.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

using Kind = PatternNode::Kind;

constexpr std::uint32_t deepest = 200;
constexpr std::uint32_t most_repeats = 1'000'000;

std::u32string decoded(std::string_view text) {
  std::u32string characters;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint c = code_point_at(text, at);
    characters += c.value;
    at += c.bytes;
  }
  return characters;
}

// Flag x: white space goes, but in brackets.
std::u32string without_space(std::u32string_view text) {
  std::u32string kept;
  std::size_t brackets = 0;
  bool escaped = false;
  for (const char32_t c : text) {
    const bool space = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (space && brackets == 0) continue;
    kept += c;
    if (!escaped && c == '[') ++brackets;
    if (!escaped && c == ']' && brackets > 0) --brackets;
    escaped = !escaped && c == '\\';
  }
  return kept;
}

class Parser {
 public:
  Parser(std::u32string text, const PatternFlags& flags) : text_(std::move(text)), flags_(flags) {}

  std::optional<Pattern> run(std::string& fault) {
    pattern_.root = choice();
    if (fault_.empty() && !at_end()) fail("a `)` has no `(`");
    fault = fault_;
    if (!fault_.empty()) return std::nullopt;
    return std::move(pattern_);
  }

 private:
  bool at_end() const { return at_ == text_.size(); }
  bool next_is(char32_t c) const { return !at_end() && text_[at_] == c; }
  bool accept(char32_t c) {
    if (!next_is(c)) return false;
    ++at_;
    return true;
  }
  bool going() const { return fault_.empty() && !at_end(); }

  // The first fault counts; reading then comes to an end at once.
  void fail(std::string fault) {
    if (fault_.empty()) fault_ = std::move(fault);
  }

  PatternNode choice() {
    PatternNode node;
    node.kind = Kind::choice;
    do {
      node.children.push_back(sequence());
    } while (fault_.empty() && accept('|'));
    return node.children.size() == 1 ? std::move(node.children.front()) : std::move(node);
  }

  PatternNode sequence() {
    PatternNode node;
    while (going() && !next_is('|') && !next_is(')')) node.children.push_back(piece());
    return node;
  }

  PatternNode piece() {
    PatternNode node = atom();
    if (!going()) return node;
    PatternNode repeat;
    repeat.kind = Kind::repeat;
    if (!quantifier(repeat)) return node;
    repeat.lazy = accept('?');
    repeat.children.push_back(std::move(node));
    return repeat;
  }

  bool quantifier(PatternNode& repeat) {
    switch (text_[at_]) {
      case '?':
        repeat.most = 1;
        break;
      case '*':
        repeat.most = PatternNode::no_limit;
        break;
      case '+':
        repeat.least = 1, repeat.most = PatternNode::no_limit;
        break;
      case '{':
        ++at_;
        return counts(repeat);
      default:
        return false;
    }
    ++at_;
    return true;
  }

  // `{2}`, `{2,}`, `{2,5}`
  bool counts(PatternNode& repeat) {
    repeat.least = count();
    repeat.most = repeat.least;
    if (accept(',')) repeat.most = next_is('}') ? PatternNode::no_limit : count();
    if (!accept('}') || repeat.least > repeat.most) fail("a `{` starts no quantity");
    return true;
  }

  std::uint32_t count() {
    std::uint32_t number = 0;
    const std::size_t start = at_;
    for (; !at_end() && is_digit(text_[at_]) && number <= most_repeats; ++at_)
      number = number * 10 + (text_[at_] - '0');
    if (at_ == start || number > most_repeats) fail("a quantity needs a number up to 1000000");
    return number;
  }

  PatternNode atom() {
    const char32_t c = text_[at_++];
    switch (c) {
      case '(':
        return group();
      case '[':
        return character(bracketed());
      case '\\':
        return escape();
      case '.':
        return character({flags_.dot_all ? "(?s:.)" : "[^\\n\\r]", nullptr});
      case '^':
        pattern_.has_start = true;
        return leaf(Kind::start);
      case '$':
        return leaf(Kind::end);
      case '?':
      case '*':
      case '+':
      case '{':
        fail("a quantity has nothing in front of it");
        return {};
      case ']':
      case '}':
        fail("a bracket closes what was not opened");
        return {};
      default:
        return character({"[" + re2_range(c, c) + "]", nullptr});
    }
  }

  static PatternNode leaf(Kind kind) {
    PatternNode node;
    node.kind = kind;
    return node;
  }

  static PatternNode character(CharacterSet set) {
    PatternNode node = leaf(Kind::character);
    node.set = std::move(set);
    return node;
  }

  PatternNode group() {
    PatternNode node = leaf(Kind::group);
    if (accept('?')) {
      if (!accept(':')) fail("`(?` must go on with `:`");
    } else {
      node.number = ++pattern_.groups;
      closed_.push_back(false);
    }
    if (++depth_ > deepest) fail("the groups are nested too deep");
    if (fault_.empty()) node.children.push_back(choice());
    --depth_;
    if (!accept(')')) fail("a `(` has no `)`");
    if (node.number > 0) closed_[node.number - 1] = true;
    return node;
  }

  PatternNode escape() {
    if (at_end()) {
      fail("a `\\` stands at the end");
      return {};
    }
    if (is_digit(text_[at_])) return back_reference();
    if (const auto c = escaped_character(text_[at_])) {
      ++at_;
      return character({"[" + re2_range(*c, *c) + "]", nullptr});
    }
    const auto set = parse_set_escape(text_, at_);
    if (!set) fail("a `\\` starts no escape that is known");
    // A category of letters stays what it is when case is ignored.
    return character({"(?-i:[" + set.value_or("") + "])", nullptr});
  }

  // The longest number of a group that exists; it must be closed by now.
  PatternNode back_reference() {
    PatternNode node = leaf(Kind::back_reference);
    node.number = text_[at_++] - U'0';
    while (going() && is_digit(text_[at_]) && node.number * 10 + (text_[at_] - U'0') <= pattern_.groups) {
      node.number = node.number * 10 + (text_[at_++] - U'0');
    }
    pattern_.beyond_automata = true;
    if (node.number == 0 || node.number > pattern_.groups || !closed_[node.number - 1]) {
      fail("there is no group " + std::to_string(node.number) + " to refer back to");
    }
    return node;
  }

  // What follows a `[`: items, and perhaps `-[...]` to take out.
  CharacterSet bracketed() {
    CharacterSet set;
    if (++depth_ > deepest) fail("the brackets are nested too deep");
    set.re2 = accept('^') ? "[^" : "[";
    bool has_items = false;
    while (going() && !next_is(']')) {
      if (has_items && next_is('-') && at_ + 1 < text_.size() && text_[at_ + 1] == '[') {
        at_ += 2;
        set.except = std::make_unique<CharacterSet>(bracketed());
        pattern_.beyond_automata = true;
        break;
      }
      bracket_item(set.re2);
      has_items = true;
    }
    --depth_;
    if (!accept(']')) fail("a `[` has no `]`");
    if (!has_items) fail("brackets hold nothing");
    set.re2 += ']';
    return set;
  }

  void bracket_item(std::string& re2) {
    if (next_is('\\') && at_ + 1 < text_.size() && !escaped_character(text_[at_ + 1])) {
      ++at_;
      const auto set = parse_set_escape(text_, at_);
      if (!set) fail("a `\\` in brackets starts no escape that is known");
      re2 += set.value_or("");
      return;
    }
    const char32_t first = bracket_character();
    const bool is_range =
        next_is('-') && at_ + 1 < text_.size() && text_[at_ + 1] != ']' && text_[at_ + 1] != '[';
    if (!is_range) {
      re2 += re2_range(first, first);
      return;
    }
    ++at_;
    const char32_t last = bracket_character();
    if (last < first) fail("a range in brackets runs backwards");
    re2 += re2_range(first, std::max(first, last));
  }

  char32_t bracket_character() {
    const char32_t c = text_[at_++];
    if (c == '[') fail("a `[` in brackets needs a `\\`");
    if (c != '\\') return c;
    const auto escaped = at_end() ? std::nullopt : escaped_character(text_[at_]);
    if (!escaped) {
      fail("a `\\` in brackets starts no escape that is known");
      return 0;
    }
    ++at_;
    return *escaped;
  }

  std::u32string text_;
  const PatternFlags& flags_;
  std::size_t at_ = 0;
  std::uint32_t depth_ = 0;
  std::vector<bool> closed_;
  std::string fault_;
  Pattern pattern_;
};

}  // namespace

std::optional<PatternFlags> parse_pattern_flags(std::string_view text) {
  PatternFlags flags;
  for (const char c : text) {
    switch (c) {
      case 's':
        flags.dot_all = true;
        break;
      case 'm':
        flags.lines = true;
        break;
      case 'i':
        flags.ignore_case = true;
        break;
      case 'x':
        flags.spaced = true;
        break;
      default:
        return std::nullopt;
    }
  }
  return flags;
}

std::optional<Pattern> parse_pattern(std::string_view text, const PatternFlags& flags, std::string& fault) {
  std::u32string characters = decoded(text);
  if (flags.spaced) characters = without_space(characters);
  return Parser(std::move(characters), flags).run(fault);
}

}  // namespace engine
