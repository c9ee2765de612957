#include "syntax/unreachable.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "syntax/parser.h"

namespace engine {

using NK = Node::Kind;

// true, false, and what `and` and `or` make of them. Anything else may go either way.
std::optional<bool> always(const Node& node) {
  switch (node.kind) {
    case NK::boolean:
      return node.flag;
    case NK::conjunction:
    case NK::disjunction: {
      const bool deciding = node.kind == NK::disjunction;
      const auto left = always(*node.children[0]);
      const auto right = always(*node.children[1]);
      if (left == deciding || right == deciding) return deciding;
      return left && right ? std::optional(!deciding) : std::nullopt;
    }
    default:
      return std::nullopt;
  }
}

namespace {

// A name means something else in there.
bool opens_scope(const Node& node) {
  return node.kind == NK::loop || node.kind == NK::some || node.kind == NK::every ||
         node.kind == NK::function || node.kind == NK::filter || node.kind == NK::context;
}

class Search {
 public:
  Search(std::string_view text, std::string_view source) : text_(text), source_(source) {}

  void walk(const Node& node) {
    if (node.kind == NK::conditional) return conditional(node);
    const auto outside = opens_scope(node) ? std::exchange(decided_, {}) : decided_;
    for (const Tree& child : node.children) walk(*child);
    decided_ = outside;
  }

  Errors take() { return std::move(errors_); }

 private:
  struct Decided {
    std::string condition;
    bool held;
  };

  void conditional(const Node& node) {
    const Node& condition = *node.children[0];
    const std::string printed = print(condition);
    const auto before = std::find_if(decided_.begin(), decided_.end(),
                                     [&](const Decided& known) { return known.condition == printed; });
    if (const auto constant = always(condition)) {
      report(node, *constant, "the condition is always " + std::string(*constant ? "true" : "false"));
    } else if (before != decided_.end()) {
      report(node, before->held,
             "an `if` around it asks the same and was " + std::string(before->held ? "true" : "not true"));
    }
    walk(condition);
    decided_.push_back({printed, true});
    walk(*node.children[1]);
    decided_.back().held = false;
    walk(*node.children[2]);
    decided_.pop_back();
  }

  void report(const Node& node, bool held, const std::string& why) {
    const Node& branch = *node.children[held ? 2 : 1];
    errors_.push_back({"unreachable_branch",
                       std::string("this `") + (held ? "else" : "then") + "` is never reached: " + why,
                       place_of(text_, branch.start, branch.size, source_),
                       "take the branch away, or put the condition right"});
  }

  std::string_view text_, source_;
  std::vector<Decided> decided_;
  Errors errors_;
};

}  // namespace

Errors unreachable_branches(const Node& tree, std::string_view text, std::string_view source) {
  Search search(text, source);
  search.walk(tree);
  return search.take();
}

}  // namespace engine
