// The text of a range is FEEL, but its ends may only be literals. Source: DMN 1.5, table 73 (range).

#include "builtins/range_text.h"

#include <algorithm>
#include <array>

#include "builtins/arguments.h"
#include "syntax/parser.h"

namespace engine {

namespace {

using NK = Node::Kind;

// `date("2024-02-29")` and its like count as literals.
bool is_literal_call(const Node& node) {
  static constexpr std::array<std::string_view, 4> makers = {"date", "time", "date and time", "duration"};
  if (node.kind != NK::call || node.children.size() != 2) return false;
  const Node& function = *node.children[0];
  return function.binding.kind == Binding::Kind::builtin && node.children[1]->kind == NK::string &&
         std::find(makers.begin(), makers.end(), function.text) != makers.end();
}

bool is_literal(const Node& node) {
  const bool negative_number = node.kind == NK::negate && node.children[0]->kind == NK::number;
  return node.kind == NK::number || node.kind == NK::string || node.kind == NK::at_literal ||
         negative_number || is_literal_call(node);
}

bool is_literal_range(const Node& node) {
  return node.kind == NK::range && is_literal(*node.children[0]) && is_literal(*node.children[1]);
}

}  // namespace

Value range_from_text(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  Layout layout;
  Scope scope(&builtin_scope(), &layout);
  TypeStore types;
  const Result<Parsed> parsed = parse_expression(call[0].string(), {&scope, &types, "range"});
  if (!parsed || !is_literal_range(*parsed->tree)) {
    return call.bad("`" + std::string(call[0].string()) + "` is no range between two literals");
  }
  CodeStore codes;
  Compiler compiler(codes);
  std::vector<Value> slots(layout.slots);
  Frame frame{&call.state, nullptr, slots.data()};
  return copy(compiler.compile(*parsed->tree)->run(frame), call.arena());
}

}  // namespace engine
