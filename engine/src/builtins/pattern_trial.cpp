#include "builtins/pattern_trial.h"

#include <algorithm>

#include "builtins/case_mapping.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

using Kind = PatternNode::Kind;
using Found = PatternMatcher::Found;

constexpr std::uint32_t deepest = 1'000;

}  // namespace

PatternTrial::PatternTrial(const PatternMatcher& matcher, std::string_view text,
                           const std::function<bool()>& step)
    : matcher_(matcher), text_(text), step_(step), captures_(matcher.groups() + 1) {}

Found PatternTrial::find(std::size_t from, std::vector<std::string_view>& groups) {
  const auto note_end = [&](std::size_t end) {
    captures_[0].end = end;
    return true;
  };
  for (std::size_t start = from; start <= text_.size();
       start += std::max<std::size_t>(1, character_at(start).size())) {
    std::fill(captures_.begin(), captures_.end(), Capture{});
    captures_[0].start = start;
    if (match(matcher_.pattern_.root, start, std::ref(note_end))) {
      groups.clear();
      for (const Capture& c : captures_) {
        const bool took_part = c.start != std::string_view::npos;
        groups.push_back(took_part ? text_.substr(c.start, c.end - c.start) : std::string_view());
      }
      return Found::yes;
    }
    if (gave_up_) return Found::gave_up;
  }
  return Found::no;
}

bool PatternTrial::match(const PatternNode& node, std::size_t at, const Rest& rest) {
  if (gave_up_ || depth_ >= deepest || !step_()) {
    gave_up_ = true;
    return false;
  }
  ++depth_;
  bool matched = false;
  switch (node.kind) {
    case Kind::character: {
      const std::string_view character = character_at(at);
      matched = !character.empty() && holds(node.set, character) && rest(at + character.size());
      break;
    }
    case Kind::start:
      matched = is_line_start(at) && rest(at);
      break;
    case Kind::end:
      matched = is_line_end(at) && rest(at);
      break;
    case Kind::sequence:
      matched = sequence(node.children, at, rest);
      break;
    case Kind::choice:
      matched = std::any_of(node.children.begin(), node.children.end(),
                            [&](const PatternNode& way) { return match(way, at, rest); });
      break;
    case Kind::group:
      matched = group(node, at, rest);
      break;
    case Kind::repeat:
      matched = node.children[0].kind == Kind::character ? repeat_character(node, at, rest)
                                                         : repeat(node, 0, at, rest);
      break;
    case Kind::back_reference:
      matched = refer_back(node, at, rest);
      break;
  }
  --depth_;
  return matched;
}

bool PatternTrial::sequence(std::span<const PatternNode> nodes, std::size_t at, const Rest& rest) {
  if (nodes.empty()) return rest(at);
  const auto others = [&](std::size_t next) { return sequence(nodes.subspan(1), next, rest); };
  return match(nodes.front(), at, std::ref(others));
}

bool PatternTrial::group(const PatternNode& node, std::size_t at, const Rest& rest) {
  const auto note = [&](std::size_t end) {
    if (node.number == 0) return rest(end);
    const Capture before = captures_[node.number];
    captures_[node.number] = {at, end};
    if (rest(end)) return true;
    captures_[node.number] = before;
    return false;
  };
  return match(node.children[0], at, std::ref(note));
}

bool PatternTrial::repeat(const PatternNode& node, std::uint32_t done, std::size_t at, const Rest& rest) {
  const auto again = [&](std::size_t next) {
    // A round that took nothing would go on for ever.
    if (next == at && done >= node.least) return false;
    return repeat(node, done + 1, next, rest);
  };
  const auto one_more = [&] { return done < node.most && match(node.children[0], at, std::ref(again)); };
  if (done < node.least) return one_more();
  return node.lazy ? rest(at) || one_more() : one_more() || rest(at);
}

// Without nesting, so that a long run of characters is no deeper than a short one.
bool PatternTrial::repeat_character(const PatternNode& node, std::size_t at, const Rest& rest) {
  const CharacterSet& set = node.children[0].set;
  std::vector<std::size_t> ends = {at};
  const auto extend = [&] {
    const std::string_view character = character_at(ends.back());
    if (ends.size() > node.most || character.empty() || !holds(set, character)) return false;
    ends.push_back(ends.back() + character.size());
    return true;
  };
  while (ends.size() <= node.least) {
    if (!extend()) return false;
  }
  if (node.lazy) {
    do {
      if (rest(ends.back())) return true;
    } while (!gave_up_ && extend());
    return false;
  }
  while (extend()) {
  }
  for (; ends.size() > node.least && !gave_up_; ends.pop_back()) {
    if (rest(ends.back())) return true;
  }
  return false;
}

// A group that took no part matches the empty string.
bool PatternTrial::refer_back(const PatternNode& node, std::size_t at, const Rest& rest) {
  const Capture& captured = captures_[node.number];
  if (captured.start == std::string_view::npos) return rest(at);
  for (std::size_t from = captured.start; from < captured.end;) {
    const std::string_view wanted = character_at(from);
    const std::string_view found = character_at(at);
    const bool same = wanted == found || (matcher_.flags_.ignore_case && !found.empty() &&
                                          lower_case(upper_case(wanted)) == lower_case(upper_case(found)));
    if (!same) return false;
    from += wanted.size();
    at += found.size();
  }
  return rest(at);
}

// A line feed that ends the text starts no line.
bool PatternTrial::is_line_start(std::size_t at) const {
  return at == 0 || (matcher_.flags_.lines && at < text_.size() && text_[at - 1] == '\n');
}

bool PatternTrial::is_line_end(std::size_t at) const {
  return at == text_.size() || (matcher_.flags_.lines && text_[at] == '\n');
}

bool PatternTrial::holds(const CharacterSet& set, std::string_view character) const {
  const auto known = std::find_if(matcher_.sets_.begin(), matcher_.sets_.end(),
                                  [&](const auto& entry) { return entry.first == &set; });
  const re2::StringPiece piece(character.data(), character.size());
  return known != matcher_.sets_.end() && re2::RE2::FullMatch(piece, *known->second) &&
         !(set.except && holds(*set.except, character));
}

std::string_view PatternTrial::character_at(std::size_t at) const {
  return text_.substr(at, code_point_at(text_, at).bytes);
}

}  // namespace engine
