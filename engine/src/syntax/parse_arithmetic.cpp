// Sums, products, powers, signs, and `instance of`.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

const Type* Parser::sum_type(Operation operation, const Type& a, const Type& b) {
  using T = Type::Kind;
  if (a.kind == b.kind &&
      (a.kind == T::number || a.kind == T::years_and_months || a.kind == T::days_and_time))
    return &a;
  if (a.kind == T::string && b.kind == T::string && operation == Operation::add) return &a;
  const bool b_duration = b.kind == T::years_and_months || b.kind == T::days_and_time;
  if ((a.kind == T::date || a.kind == T::date_time) && b_duration) return &a;
  if (a.kind == T::date && b.kind == T::date && operation == Operation::subtract)
    return basic_type(T::days_and_time);
  return any_type();
}

Tree Parser::sum() {
  Tree left = product();
  for (;;) {
    const Operation operation = peek().is("+")   ? Operation::add
                                : peek().is("-") ? Operation::subtract
                                                 : Operation::none;
    if (operation == Operation::none || peek().kind != Token::Kind::symbol) return left;
    ++at_;
    Tree right = product();
    const Type* type = sum_type(operation, *left->type, *right->type);
    left = binary(NK::arithmetic, operation, std::move(left), std::move(right), type);
  }
}

const Type* Parser::product_type(Operation operation, const Type& a, const Type& b) {
  using T = Type::Kind;
  if (a.kind == T::number && b.kind == T::number) return &a;
  const bool a_duration = a.kind == T::years_and_months || a.kind == T::days_and_time;
  if (a_duration && b.kind == T::number) return &a;
  if (a_duration && a.kind == b.kind && operation == Operation::divide) return basic_type(T::number);
  return any_type();
}

Tree Parser::product() {
  Tree left = power();
  for (;;) {
    const Operation operation = peek().is("*")   ? Operation::multiply
                                : peek().is("/") ? Operation::divide
                                                 : Operation::none;
    if (operation == Operation::none) return left;
    ++at_;
    Tree right = power();
    const Type* type = product_type(operation, *left->type, *right->type);
    left = binary(NK::arithmetic, operation, std::move(left), std::move(right), type);
  }
}

Tree Parser::power() {
  Tree left = negation();
  while (accept("**")) {
    left =
        binary(NK::arithmetic, Operation::power, std::move(left), negation(), basic_type(Type::Kind::number));
  }
  return left;
}

Tree Parser::negation() {
  if (!peek().is("-")) return instance();
  const Depth depth(*this);
  Tree node = make(NK::negate, peek().start);
  ++at_;
  node->children.push_back(negation());
  node->type = node->children[0]->type;
  return finish(std::move(node));
}

Tree Parser::instance() {
  Tree left = postfix();
  if (!(peek().is("instance") && peek(1).is("of"))) return left;
  at_ += 2;
  Tree node = make(NK::instance_of, left->start);
  node->children.push_back(std::move(left));
  node->types.push_back(type());
  node->type = basic_type(Type::Kind::boolean);
  return finish(std::move(node));
}

}  // namespace engine
