// Types, as `instance of` and parameters name them.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

const Type* Parser::type() {
  const Depth depth(*this);
  if (peek(1).is("<")) {
    if (peek().is("list") || peek().is("range")) {
      const bool list = peek().is("list");
      at_ += 2;
      const Type* element = type();
      expect(">");
      return list ? context_.types->list_of(element) : context_.types->range_of(element);
    }
    if (peek().is("context")) return context_type();
    if (peek().is("function")) return function_type();
  }
  std::uint32_t longest = 0;
  const Type* found_type = nullptr;
  for (const std::string_view name : context_.types->names()) {
    const std::uint32_t count = NamePattern(name).matches(tokens_, at_);
    if (count > longest) {
      longest = count;
      found_type = context_.types->find(name);
    }
  }
  if (!found_type) {
    const std::string near = nearest(peek().text, context_.types->names());
    fail("no type is called " + found(), near.empty() ? "" : "did you mean `" + near + "`?");
  }
  at_ += longest;
  return found_type;
}

const Type* Parser::context_type() {
  at_ += 2;
  Type* type = context_.types->make(Type::Kind::context);
  if (accept(">")) return type;
  do {
    std::string name = name_until(":");
    expect(":");
    type->fields.push_back({std::move(name), this->type()});
  } while (accept(","));
  expect(">");
  return type;
}

const Type* Parser::function_type() {
  at_ += 2;
  Type* type = context_.types->make(Type::Kind::function);
  if (!accept(">")) {
    do {
      type->parameters.push_back(this->type());
    } while (accept(","));
    expect(">");
  }
  expect("->");
  type->result = this->type();
  return type;
}

}  // namespace engine
