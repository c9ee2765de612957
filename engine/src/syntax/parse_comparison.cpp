// Comparisons and unary tests.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

Tree Parser::whole_unary_tests() {
  if (peek().kind == Token::Kind::end) return make(NK::any_test, 0);
  if (peek().is("-") && peek(1).kind == Token::Kind::end) {
    Tree any = make(NK::any_test, 0);
    ++at_;
    return any;
  }
  const std::uint32_t start = peek().start;
  if (peek().is("not") && peek(1).is("(")) {
    const Mark back = mark();
    at_ += 2;
    Tree inner = test_list(")");
    expect(")");
    if (peek().kind == Token::Kind::end) {
      Tree negation = make(NK::not_test, start);
      negation->children.push_back(std::move(inner));
      return finish(std::move(negation));
    }
    go_back(back);  // `not(...)` was the beginning of an expression
  }
  Tree tests = test_list("");
  expect_end();
  return tests;
}

Operation Parser::comparison_operation(const Token& token) {
  if (token.kind != Token::Kind::symbol) return Operation::none;
  if (token.text == "=") return Operation::equal;
  if (token.text == "!=") return Operation::not_equal;
  if (token.text == "<") return Operation::less;
  if (token.text == "<=") return Operation::less_or_equal;
  if (token.text == ">") return Operation::greater;
  if (token.text == ">=") return Operation::greater_or_equal;
  return Operation::none;
}

Tree Parser::comparison() {
  Tree left = sum();
  const Operation operation = comparison_operation(peek());
  if (operation != Operation::none) {
    ++at_;
    Tree right = sum();
    warn_clash(*left, *right);
    Tree node =
        binary(NK::comparison, operation, std::move(left), std::move(right), basic_type(Type::Kind::boolean));
    if (comparison_operation(peek()) != Operation::none) {
      fail("comparisons cannot be chained", "write `a < b and b < c`");
    }
    return node;
  }
  if (accept("between")) {
    Tree node = make(NK::between, left->start);
    node->children.push_back(std::move(left));
    node->children.push_back(sum());
    expect("and");
    node->children.push_back(sum());
    node->type = basic_type(Type::Kind::boolean);
    return finish(std::move(node));
  }
  if (accept("in")) {
    Tree node = make(NK::in, left->start);
    node->children.push_back(std::move(left));
    node->children.push_back(in_tests());
    node->type = basic_type(Type::Kind::boolean);
    return finish(std::move(node));
  }
  return left;
}

void Parser::warn_clash(const Node& left, const Node& right) {
  if (!clash(*left.type, *right.type)) return;
  warnings_.push_back({"type_clash",
                       "a " + engine::text_of(*left.type) + " is compared with a " +
                           engine::text_of(*right.type) + ": the answer is always null",
                       place_of(text_, left.start, right.start + right.size - left.start, context_.source),
                       {}});
}

Tree Parser::in_tests() {
  if (!peek().is("(")) return one_test(false);
  const Mark back = mark();
  std::optional<SyntaxFault> fault;
  if (!no_test_lists_.count({at_, in_range_end_})) {
    if (Tree tests = tests_in_parentheses(fault)) return tests;
    no_test_lists_.insert({back.at, back.in_range_end});
  }
  const std::size_t furthest = at_;
  go_back(back);
  try {
    return one_test(false);
  } catch (SyntaxFault&) {
    if (fault && furthest > at_) throw *fault;
    throw;
  }
}

Tree Parser::tests_in_parentheses(std::optional<SyntaxFault>& fault) {
  const std::uint32_t start = peek().start;
  ++at_;
  try {
    Tree tests = make(NK::test_list, start);
    if (!peek().is(")")) tests = test_list(")");
    if (accept(")") && !continues_operand()) {
      tests->start = start;
      return finish(std::move(tests));
    }
  } catch (SyntaxFault& f) {
    fault = std::move(f);
  }
  return nullptr;
}

bool Parser::continues_operand() const {
  static constexpr std::string_view operators[] = {".", "[", "(", "+", "-", "*", "/", "**", ".."};
  return std::any_of(std::begin(operators), std::end(operators), [&](auto o) { return peek().is(o); });
}

Tree Parser::test_list(std::string_view) {
  Tree list = make(NK::test_list, peek().start);
  do {
    list->children.push_back(one_test(true));
  } while (accept(","));
  list->type = basic_type(Type::Kind::boolean);
  return finish(std::move(list));
}

Tree Parser::one_test(bool whole) {
  const std::uint32_t start = peek().start;
  const Operation operation = comparison_operation(peek());
  if (operation != Operation::none) {
    ++at_;
    Tree node = make(NK::compare_test, start);
    node->operation = operation;
    node->children.push_back(sum());
    return finish(std::move(node));
  }
  Tree node = make(NK::value_test, start);
  const bool outer_uses = uses_tested_value_;
  uses_tested_value_ = false;
  node->children.push_back(whole ? expression() : sum());
  node->flag = uses_tested_value_;
  uses_tested_value_ = outer_uses || uses_tested_value_;
  return finish(std::move(node));
}

}  // namespace engine
