#include "builtins/pattern_matcher.h"

#include "builtins/pattern_trial.h"

namespace engine {

namespace {

using Kind = PatternNode::Kind;

class Translator {
 public:
  explicit Translator(const PatternFlags& flags) : flags_(flags) {}
  std::string out;

  void write(const PatternNode& node) {
    switch (node.kind) {
      case Kind::character:
        out += node.set.re2;
        break;
      case Kind::start:
        out += flags_.lines ? "(?m:^)" : "\\A";
        break;
      case Kind::end:
        out += flags_.lines ? "(?m:$)" : "\\z";
        break;
      case Kind::sequence:
        for (const PatternNode& child : node.children) write(child);
        break;
      case Kind::choice:
        choice(node);
        break;
      case Kind::group:
        enclosed(node, node.number > 0 ? "(" : "(?:");
        break;
      case Kind::repeat:
        repeat(node);
        break;
      case Kind::back_reference:
        break;  // never asked: the pattern is beyond automata
    }
  }

 private:
  void enclosed(const PatternNode& node, const char* bracket) {
    out += bracket;
    write(node.children[0]);
    out += ')';
  }

  void choice(const PatternNode& node) {
    out += "(?:";
    for (const PatternNode& way : node.children) {
      if (&way != &node.children.front()) out += '|';
      write(way);
    }
    out += ')';
  }

  void repeat(const PatternNode& node) {
    enclosed(node, "(?:");
    out.append("{").append(std::to_string(node.least)).append(",");
    if (node.most != PatternNode::no_limit) out += std::to_string(node.most);
    out += node.lazy ? "}?" : "}";
  }

  const PatternFlags& flags_;
};

re2::RE2::Options options_for(const PatternFlags& flags) {
  re2::RE2::Options options;
  options.set_log_errors(false);
  options.set_case_sensitive(!flags.ignore_case);
  return options;
}

}  // namespace

PatternMatcher::PatternMatcher(Pattern pattern, const PatternFlags& flags)
    : pattern_(std::move(pattern)), flags_(flags) {}

std::unique_ptr<PatternMatcher> PatternMatcher::make(std::string_view pattern, const PatternFlags& flags,
                                                     std::string& fault) {
  auto parsed = parse_pattern(pattern, flags, fault);
  if (!parsed) return nullptr;
  std::unique_ptr<PatternMatcher> matcher(new PatternMatcher(std::move(*parsed), flags));
  const Pattern& tree = matcher->pattern_;
  if (tree.beyond_automata || (flags.lines && tree.has_start)) matcher->compile_sets(tree.root);
  if (tree.beyond_automata) return matcher;
  Translator translator(flags);
  translator.write(tree.root);
  matcher->automaton_ = std::make_unique<re2::RE2>(translator.out, options_for(flags));
  if (!matcher->automaton_->ok()) {
    fault = "the pattern is too large";  // its syntax is sound: our own parser has read it
    return nullptr;
  }
  return matcher;
}

void PatternMatcher::compile_sets(const PatternNode& node) {
  if (node.kind == Kind::character) compile_set(node.set);
  for (const PatternNode& child : node.children) compile_sets(child);
}

void PatternMatcher::compile_set(const CharacterSet& set) {
  sets_.emplace_back(&set, std::make_unique<re2::RE2>(set.re2, options_for(flags_)));
  if (set.except) compile_set(*set.except);
}

PatternMatcher::Found PatternMatcher::find(std::string_view text, std::size_t from,
                                           std::vector<std::string_view>& groups,
                                           const std::function<bool()>& step) const {
  // For RE2, a line starts behind every line feed; for XPath, not behind one that ends the text.
  const bool ends_in_line_feed = !text.empty() && text.back() == '\n';
  if (!automaton_ || (flags_.lines && pattern_.has_start && ends_in_line_feed)) {
    return PatternTrial(*this, text, step).find(from, groups);
  }
  std::vector<re2::StringPiece> pieces(pattern_.groups + 1);
  const re2::StringPiece subject(text.data(), text.size());
  if (!automaton_->Match(subject, from, text.size(), re2::RE2::UNANCHORED, pieces.data(),
                         static_cast<int>(pieces.size()))) {
    return Found::no;
  }
  groups.clear();
  for (const re2::StringPiece& piece : pieces) groups.emplace_back(piece.data(), piece.size());
  return Found::yes;
}

}  // namespace engine
