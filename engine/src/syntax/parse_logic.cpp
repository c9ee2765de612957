// Loops, conditions, quantifiers, and the two junctions.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

Tree Parser::expression() {
  const Depth depth(*this);
  const Token& token = peek();
  const bool opening = token.is("for") || token.is("if") || token.is("some") || token.is("every");
  if (!opening || starts_known_name()) return disjunction();
  if (token.text == "for") return loop();
  if (token.text == "if") return conditional();
  return quantified();
}

bool Parser::starts_known_name() const {
  const Scope::Match match = scope_->find(tokens_, at_);
  return match.tokens > 0;
}

Tree Parser::loop() {
  const std::uint32_t start = peek().start;
  ++at_;
  Tree node = make(NK::loop, start);
  std::vector<std::unique_ptr<Scope>> scopes;
  const Scope* before = scope_;
  const Type* partial_type = context_.types->list_of(nullptr);
  do {
    iteration(*node, scopes);
  } while (accept(","));
  scopes.push_back(std::make_unique<Scope>(scope_, scope_->layout()));
  node->slots.push_back(scopes.back()->add_variable("partial", partial_type));
  scope_ = scopes.back().get();
  expect("return");
  node->children.push_back(expression());
  scope_ = before;
  node->type = context_.types->list_of(node->children.back()->type);
  return finish(std::move(node));
}

Tree Parser::quantified() {
  const std::uint32_t start = peek().start;
  Tree node = make(peek().text == "some" ? NK::some : NK::every, start);
  ++at_;
  std::vector<std::unique_ptr<Scope>> scopes;
  const Scope* before = scope_;
  do {
    iteration(*node, scopes);
  } while (accept(","));
  expect("satisfies");
  node->children.push_back(expression());
  scope_ = before;
  node->type = basic_type(Type::Kind::boolean);
  return finish(std::move(node));
}

void Parser::iteration(Node& node, std::vector<std::unique_ptr<Scope>>& scopes) {
  node.names.push_back(name_until("in"));
  expect("in");
  Tree domain = expression();
  if (accept("..")) {
    Tree range = make(NK::range, domain->start);
    range->type = context_.types->range_of(domain->type);
    range->children.push_back(std::move(domain));
    range->children.push_back(sum());
    range->flag = range->flag_2 = true;
    range->operation = Operation::subtract;  // marks "may run downward"
    domain = finish(std::move(range));
  }
  scopes.push_back(std::make_unique<Scope>(scope_, scope_->layout()));
  node.slots.push_back(scopes.back()->add_variable(node.names.back(), element_type(*domain)));
  scope_ = scopes.back().get();
  node.children.push_back(std::move(domain));
}

const Type* Parser::element_type(const Node& node) {
  if ((node.type->kind == Type::Kind::list || node.type->kind == Type::Kind::range) && node.type->element) {
    return node.type->element;
  }
  return any_type();
}

Tree Parser::conditional() {
  Tree node = make(NK::conditional, peek().start);
  ++at_;
  node->children.push_back(expression());
  expect("then");
  node->children.push_back(expression());
  if (!peek().is("else")) fail("expected `else`, found " + found(), "FEEL has no `if` without `else`");
  ++at_;
  node->children.push_back(expression());
  node->type = common_type(*node->children[1]->type, *node->children[2]->type);
  return finish(std::move(node));
}

const Type* Parser::common_type(const Type& a, const Type& b) {
  if (a.kind == Type::Kind::null) return &b;
  if (b.kind == Type::Kind::null) return &a;
  if (fits(a, b) && fits(b, a)) return &b;
  // Contexts with other keys: what they share would hide a key that one of them has.
  const auto has_keys = [](const Type& t) {
    const Type& item = t.kind == Type::Kind::list && t.element ? *t.element : t;
    return item.kind == Type::Kind::context;
  };
  if (has_keys(a) || has_keys(b)) return any_type();
  if (fits(a, b)) return &b;
  if (fits(b, a)) return &a;
  return any_type();
}

Tree Parser::binary(NK kind, Operation operation, Tree left, Tree right, const Type* type) {
  Tree node = make(kind, left->start);
  node->operation = operation;
  node->type = type;
  node->children.push_back(std::move(left));
  node->children.push_back(std::move(right));
  return finish(std::move(node));
}

Tree Parser::disjunction() {
  Tree left = conjunction();
  while (accept("or")) {
    left = binary(NK::disjunction, Operation::none, std::move(left), conjunction(),
                  basic_type(Type::Kind::boolean));
  }
  return left;
}

Tree Parser::conjunction() {
  Tree left = comparison();
  while (accept("and")) {
    left = binary(NK::conjunction, Operation::none, std::move(left), comparison(),
                  basic_type(Type::Kind::boolean));
  }
  return left;
}

}  // namespace engine
