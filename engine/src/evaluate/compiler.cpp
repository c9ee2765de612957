#include "evaluate/code.h"

namespace engine {

namespace {

// A decision or function that the file leaves without logic.
struct NoLogic : Code {
  Value run(Frame& frame) const override {
    return frame.state->fault(*this, "no_logic", "there is no logic here");
  }
};

}  // namespace

Operands Compiler::compile_all(const std::vector<Tree>& trees) {
  Operands operands;
  operands.reserve(trees.size());
  for (const Tree& tree : trees) operands.push_back(compile(*tree));
  return operands;
}

const Code* Compiler::compile(const Node& node) {
  using NK = Node::Kind;
  const InText text(*this, node);
  switch (node.kind) {
    case NK::null: case NK::boolean: case NK::number: case NK::string: case NK::at_literal:
      return compile_literal(node, *this);
    case NK::name: return compile_name(node, *this);
    case NK::list: return compile_list(node, *this);
    case NK::context: return compile_context(node, *this);
    case NK::range: case NK::unary_range: return compile_range(node, *this);
    case NK::arithmetic: return compile_arithmetic(node, *this);
    case NK::negate: return compile_negation(node, *this);
    case NK::comparison: return compile_comparison(node, *this);
    case NK::conjunction: case NK::disjunction: return compile_junction(node, *this);
    case NK::between: return compile_between(node, *this);
    case NK::in: return compile_in(node, *this);
    case NK::conditional: return compile_conditional(node, *this);
    case NK::loop: return compile_loop(node, *this);
    case NK::some: case NK::every: return compile_quantifier(node, *this);
    case NK::function: return compile_function(node, *this);
    case NK::call: case NK::named_call: return compile_call(node, *this);
    case NK::path: return compile_path(node, *this);
    case NK::filter: return compile_filter(node, *this);
    case NK::instance_of: return compile_instance_of(node, *this);
    case NK::convert: return compile_convert(node, *this);
    case NK::table: return compile_table(node, *this);
    case NK::no_logic: case NK::any_test: case NK::compare_test: case NK::value_test: case NK::test_list:
    case NK::not_test:
      return make<NoLogic>(node);
  }
  return nullptr;
}

}  // namespace engine
