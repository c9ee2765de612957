// matches, replace, split. Source: DMN 1.5, table 75; XQuery 1.0 and XPath 2.0 Functions and Operators, 7.6.
//
// As there, `replace` and `split` refuse a pattern that matches the empty string.

#include <array>

#include "builtins/arguments.h"
#include "builtins/pattern_matcher.h"

namespace engine {

namespace {

using Groups = std::vector<std::string_view>;

// Most patterns are constants of a rule, and making a matcher costs far more than using it: the last few are
// kept.
const PatternMatcher* cached_matcher(std::string_view pattern, std::string_view flag_text,
                                     const PatternFlags& flags, std::string& fault) {
  struct Entry {
    std::string pattern;
    std::string flags;
    std::unique_ptr<PatternMatcher> matcher;
  };
  thread_local std::array<Entry, 8> entries;
  thread_local std::size_t oldest = 0;
  for (const Entry& entry : entries) {
    if (entry.matcher && entry.pattern == pattern && entry.flags == flag_text) return entry.matcher.get();
  }
  auto matcher = PatternMatcher::make(pattern, flags, fault);
  if (!matcher) return nullptr;
  Entry& entry = entries[oldest++ % entries.size()];
  entry = {std::string(pattern), std::string(flag_text), std::move(matcher)};
  return entry.matcher.get();
}

/// The pattern is argument 1; the flags are argument `flags`, when given. No value, with a diagnostic, when
/// one of them is not right.
const PatternMatcher* matcher_of(const BuiltinCall& call, std::size_t flags) {
  std::string_view letters;
  if (call.count() > flags && !call[flags].is_null()) {
    if (!call[flags].is(Kind::string)) return call.wrong(flags, "string"), nullptr;
    letters = call[flags].string();
  }
  const auto parsed = parse_pattern_flags(letters);
  if (!parsed) return call.bad("the flags are s, m, i and x, not `" + std::string(letters) + "`"), nullptr;
  std::string fault;
  const PatternMatcher* matcher = cached_matcher(call[1].string(), letters, *parsed, fault);
  if (!matcher) call.bad("`" + std::string(call[1].string()) + "` is no pattern: " + fault);
  return matcher;
}

/// Finds matches one after another.
class Search {
 public:
  Search(const BuiltinCall& call, const PatternMatcher& matcher)
      : call_(call), matcher_(matcher), step_([this] { return call_.state.step(call_.at); }) {}

  bool next(std::string_view text, std::size_t from) {
    const auto found = matcher_.find(text, from, groups, step_);
    gave_up = found == PatternMatcher::Found::gave_up;
    if (gave_up) call_.bad("the pattern has too many ways to match this text");
    return found == PatternMatcher::Found::yes;
  }

  Groups groups;
  bool gave_up = false;

 private:
  const BuiltinCall& call_;
  const PatternMatcher& matcher_;
  const std::function<bool()> step_;
};

Value matches(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string})) return *fault;
  const PatternMatcher* matcher = matcher_of(call, 2);
  if (!matcher) return {};
  Search search(call, *matcher);
  const bool found = search.next(call[0].string(), 0);
  return search.gave_up ? Value() : Value::of(found);
}

// Walks over all matches of the pattern in argument 0: `between` is given the text in front of each match,
// the match, and last the rest of the text without a match. False when there is no result.
template <class Between>
bool walk(const BuiltinCall& call, const PatternMatcher& matcher, Between between) {
  Search search(call, matcher);
  if (search.next({}, 0)) {
    call.bad("the pattern matches the empty string");
    return false;
  }
  const std::string_view text = call[0].string();
  std::size_t done = 0;
  while (!search.gave_up && search.next(text, done)) {
    const std::string_view match = search.groups[0];
    if (match.empty() || !call.state.step(call.at)) {
      if (match.empty()) call.bad("the pattern matches nothing between two characters");
      return false;
    }
    const auto start = static_cast<std::size_t>(match.data() - text.data());
    if (!between(text.substr(done, start - done), &search.groups)) return false;
    done = start + match.size();
  }
  return !search.gave_up && between(text.substr(done), nullptr);
}

/// A replacement: text and groups in turn.
struct Part {
  std::string text;
  std::uint32_t group = 0;
  bool is_group = false;
};

// `$1` is a group, `\$` a dollar, `\\` a backslash. `$12` is group 12 when there is one, else group 1 and a
// `2`.
std::optional<std::vector<Part>> parts_of(std::string_view replacement, std::uint32_t groups) {
  std::vector<Part> parts = {{}};
  for (std::size_t i = 0; i < replacement.size(); ++i) {
    const char c = replacement[i];
    const char next = i + 1 < replacement.size() ? replacement[i + 1] : '\0';
    if (c == '\\') {
      if (next != '$' && next != '\\') return std::nullopt;
      parts.back().text += next;
      ++i;
    } else if (c == '$') {
      const auto digit = [&](std::size_t at) {
        return at < replacement.size() && replacement[at] >= '0' && replacement[at] <= '9';
      };
      if (!digit(i + 1)) return std::nullopt;
      std::uint32_t number = static_cast<std::uint32_t>(replacement[++i] - '0');
      while (digit(i + 1)) {
        const std::uint32_t longer = number * 10 + static_cast<std::uint32_t>(replacement[i + 1] - '0');
        if (longer > groups) break;
        number = longer;
        ++i;
      }
      parts.push_back({{}, number, true});
      parts.emplace_back();
    } else {
      parts.back().text += c;
    }
  }
  return parts;
}

Value replace(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string, Kind::string})) return *fault;
  const PatternMatcher* matcher = matcher_of(call, 3);
  if (!matcher) return {};
  const auto parts = parts_of(call[2].string(), matcher->groups());
  if (!parts) return call.bad("in the replacement, `$` needs a digit behind it and `\\` a `$` or `\\`");
  std::string out;
  const bool done = walk(call, *matcher, [&](std::string_view before, const Groups* groups) {
    out += before;
    if (!groups) return true;
    for (const Part& part : *parts) {
      if (!part.is_group) out += part.text;
      // A group that does not exist, or took no part, is empty.
      else if (part.group < groups->size())
        out += (*groups)[part.group];
    }
    return out.size() <= call.state.budget.string_length || !new_string(call, out).is_null();
  });
  return done ? new_string(call, out) : Value();
}

// Policy: the empty string splits into one empty string, so that n delimiters always make n + 1 pieces.
Value split(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string})) return *fault;
  const PatternMatcher* matcher = matcher_of(call, 2);
  if (!matcher) return {};
  std::vector<Value> pieces;
  const bool done = walk(call, *matcher, [&](std::string_view before, const Groups*) {
    pieces.push_back(Value::string(before));
    return true;
  });
  return done ? new_list(call, pieces) : Value();
}

}  // namespace

void add_pattern_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Builtin> own = {
      {"matches", matches, {{{"input", "pattern", "flags"}, 2}}, Result::boolean},
      {"replace", replace, {{{"input", "pattern", "replacement", "flags"}, 3}}, Result::string},
      {"split", split, {{{"string", "delimiter"}, 2}}, Result::list},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
