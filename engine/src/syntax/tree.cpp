#include "syntax/tree.h"

namespace engine {

Node::Node(Kind k) : kind(k) {}
Node::~Node() = default;

std::string_view text_of(Operation operation) {
  switch (operation) {
    case Operation::none: return "";
    case Operation::add: return "+";
    case Operation::subtract: return "-";
    case Operation::multiply: return "*";
    case Operation::divide: return "/";
    case Operation::power: return "**";
    case Operation::equal: return "=";
    case Operation::not_equal: return "!=";
    case Operation::less: return "<";
    case Operation::less_or_equal: return "<=";
    case Operation::greater: return ">";
    case Operation::greater_or_equal: return ">=";
  }
  return "";
}

bool same_tree(const Node& a, const Node& b) {
  if (a.kind != b.kind || a.operation != b.operation || a.flag != b.flag || a.flag_2 != b.flag_2 || a.text != b.text ||
      a.names != b.names || a.children.size() != b.children.size() || a.types.size() != b.types.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.children.size(); ++i) {
    if (!same_tree(*a.children[i], *b.children[i])) return false;
  }
  for (std::size_t i = 0; i < a.types.size(); ++i) {
    if ((a.types[i] == nullptr) != (b.types[i] == nullptr)) return false;
    if (a.types[i] && text_of(*a.types[i]) != text_of(*b.types[i])) return false;
  }
  return true;
}

}  // namespace engine
