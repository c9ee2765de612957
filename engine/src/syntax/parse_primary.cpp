// Literals, parentheses, ranges, lists, contexts, functions.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

Tree Parser::primary() {
  const Depth depth(*this);
  const Token& token = peek();
  switch (token.kind) {
    case Token::Kind::number: {
      // `2 x` may be part of a name, but a name cannot begin with a digit
      Tree node = make(NK::number, token.start);
      node->text = token.text;
      node->type = basic_type(Type::Kind::number);
      ++at_;
      return finish(std::move(node));
    }
    case Token::Kind::string: {
      Tree node = make(NK::string, token.start);
      node->text = unescaped(token.text);
      node->type = basic_type(Type::Kind::string);
      ++at_;
      return finish(std::move(node));
    }
    case Token::Kind::word:
      return word();
    case Token::Kind::symbol:
      if (token.text == "(") return parenthesis();
      if (token.text == "[") return bracket();
      if (token.text == "]") return interval(peek().start, false);
      if (token.text == "{") return context();
      if (token.text == "@") return at_literal();
      break;
    case Token::Kind::end:
      break;
  }
  fail("expected an expression, found " + found());
}

Tree Parser::at_literal() {
  Tree node = make(NK::at_literal, peek().start);
  ++at_;
  if (peek().kind != Token::Kind::string) fail("expected a string after `@`, found " + found());
  node->text = unescaped(peek().text);
  ++at_;
  return finish(std::move(node));
}

Tree Parser::parenthesis() {
  const std::uint32_t start = peek().start;
  const Operation operation = comparison_operation(peek(1));
  if (operation != Operation::none) {
    at_ += 2;
    Tree node = make(NK::unary_range, start);
    node->operation = operation;
    node->children.push_back(nested([&] { return sum(); }));
    expect(")");
    node->type = context_.types->range_of(node->children[0]->type);
    return finish(std::move(node));
  }
  ++at_;
  Tree inner = nested([&] { return expression(); });
  if (accept("..")) return upper_end(start, false, std::move(inner));
  expect(")");
  return inner;
}

Tree Parser::bracket() {
  const std::uint32_t start = peek().start;
  ++at_;
  Tree list = make(NK::list, start);
  list->type = context_.types->list_of(basic_type(Type::Kind::null));
  if (accept("]")) return finish(std::move(list));
  list->children.push_back(nested([&] { return expression(); }));
  if (accept("..")) return upper_end(start, true, std::move(list->children[0]));
  const Type* element = list->children[0]->type;
  nested([&] {
    while (accept(",")) {
      list->children.push_back(expression());
      element = common_type(*element, *list->children.back()->type);
    }
    expect("]");
  });
  // Contexts with other keys are looked at one by one when the list is filtered.
  const bool mixed = element->kind == Type::Kind::context &&
                     std::any_of(list->children.begin(), list->children.end(), [&](const Tree& child) {
                       return !fits(*child->type, *element) || !fits(*element, *child->type);
                     });
  list->type = context_.types->list_of(mixed ? any_type() : element);
  return finish(std::move(list));
}

Tree Parser::interval(std::uint32_t start, bool included) {
  ++at_;
  Tree lower = nested([&] { return sum(); });
  expect("..");
  return upper_end(start, included, std::move(lower));
}

Tree Parser::upper_end(std::uint32_t start, bool start_included, Tree lower) {
  Tree node = make(NK::range, start);
  node->flag = start_included;
  node->type = context_.types->range_of(lower->type);
  node->children.push_back(std::move(lower));
  const bool before = in_range_end_;
  in_range_end_ = true;
  node->children.push_back(sum());
  in_range_end_ = before;
  if (accept("]")) {
    node->flag_2 = true;
  } else if (!accept(")") && !accept("[")) {
    fail("expected `]`, `)` or `[` at the end of the range, found " + found());
  }
  return finish(std::move(node));
}

Tree Parser::context() {
  Tree node = make(NK::context, peek().start);
  ++at_;
  Type* type = context_.types->make(Type::Kind::context);
  Scope entries(scope_, scope_->layout());
  within(entries, [&] {
    nested([&] {
      if (accept("}")) return;
      do {
        std::string key;
        if (peek().kind == Token::Kind::string) {
          key = unescaped(peek().text);
          ++at_;
        } else {
          key = name_until(":");
        }
        expect(":");
        node->children.push_back(expression());
        type->fields.push_back({key, node->children.back()->type});
        node->slots.push_back(entries.add_variable(key, node->children.back()->type));
        node->names.push_back(std::move(key));
      } while (accept(","));
      expect("}");
    });
  });
  node->type = type;
  return finish(std::move(node));
}

Tree Parser::function() {
  Tree node = make(NK::function, peek().start);
  at_ += 2;
  Layout layout{0, scope_->layout()->level + 1};
  Scope parameters(scope_, &layout);
  Type* type = context_.types->make(Type::Kind::function);
  if (!accept(")")) {
    do {
      node->names.push_back(name_until(":"));
      const Type* declared = accept(":") ? this->type() : nullptr;
      node->types.push_back(declared);
      type->parameters.push_back(declared ? declared : any_type());
      node->slots.push_back(parameters.add_variable(node->names.back(), declared ? declared : any_type()));
    } while (accept(","));
    expect(")");
  }
  node->flag = accept("external");
  node->children.push_back(within(parameters, [&] { return nested([&] { return expression(); }); }));
  node->frame_slots = layout.slots;
  node->binding.index = scope_->layout()->slots;
  type->result = node->children[0]->type;
  node->type = type;
  return finish(std::move(node));
}

}  // namespace engine
