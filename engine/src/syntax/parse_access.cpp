// Paths, filters and calls: what may follow an operand.

#include <algorithm>

#include "builtins/index.h"
#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

Tree Parser::postfix() {
  Tree left = primary();
  for (;;) {
    if (peek().is(".")) {
      left = path(std::move(left));
    } else if (peek().is("[") && !(in_range_end_ && closes_range())) {
      left = filter(std::move(left));
    } else if (peek().is("(")) {
      left = call(std::move(left));
    } else {
      return left;
    }
  }
}

bool Parser::closes_range() const {
  const Token& next = peek(1);
  if (next.kind == Token::Kind::end) return true;
  static constexpr std::string_view after[] = {
      ".", ")", ",",  "]",   "}",  "=",    "!=",   "<",      "<=",        ">",  ">=",      "+",
      "*", "/", "**", "and", "or", "then", "else", "return", "satisfies", "in", "between", "instance"};
  return std::any_of(std::begin(after), std::end(after), [&](auto a) { return next.is(a); });
}

Tree Parser::path(Tree left) {
  ++at_;
  Tree node = make(NK::path, left->start);
  const Type& whole = *left->type;
  const Type* holder = whole.kind == Type::Kind::list && whole.element ? whole.element : &whole;
  const Type* found_type = any_type();
  node->text = property_name(*holder, found_type);
  const bool over_list = whole.kind == Type::Kind::list;
  node->type = over_list ? context_.types->list_of(found_type) : found_type;
  if (over_list && holder->kind == Type::Kind::any) node->type = any_type();
  node->children.push_back(std::move(left));
  return finish(std::move(node));
}

std::string Parser::property_name(const Type& holder, const Type*& type) {
  std::uint32_t longest = 0;
  std::string name;
  const auto consider = [&](std::string_view candidate, const Type* candidate_type) {
    const std::uint32_t count = NamePattern(candidate).matches(tokens_, at_);
    if (count > longest) {
      longest = count;
      name = candidate;
      type = candidate_type;
    }
  };
  for (const Type::Field& field : holder.fields) consider(field.name, field.type);
  if (holder.kind != Type::Kind::context) {
    const Type* number = basic_type(Type::Kind::number);
    consider("time offset", basic_type(Type::Kind::days_and_time));
    consider("start included", basic_type(Type::Kind::boolean));
    consider("end included", basic_type(Type::Kind::boolean));
    if (holder.kind != Type::Kind::any) {
      for (const std::string_view property : {"year", "month", "day", "weekday", "hour", "minute", "second",
                                              "years", "months", "days", "hours", "minutes", "seconds"}) {
        consider(property, number);
      }
    }
  }
  if (longest > 0) {
    at_ += longest;
    return name;
  }
  if (peek().kind != Token::Kind::word) fail("expected a name after `.`, found " + found());
  if (!holder.fields.empty()) warn_unknown_key(holder);
  name = std::string(peek().text);
  ++at_;
  while (peek().kind == Token::Kind::word && !is_keyword(peek().text)) {
    name += " " + std::string(peek().text);
    ++at_;
  }
  return name;
}

void Parser::warn_unknown_key(const Type& holder) {
  std::vector<std::string_view> keys;
  std::string list;
  for (const Type::Field& field : holder.fields) {
    keys.push_back(field.name);
    list += (list.empty() ? "`" : ", `") + field.name + "`";
  }
  const std::string near = nearest(peek().text, keys);
  warnings_.push_back({"unknown_key", "there is no `" + std::string(peek().text) + "` here",
                       place_of(text_, peek().start, peek().size, context_.source),
                       (near.empty() ? "" : "did you mean `" + near + "`? ") + "there are " + list});
}

Tree Parser::filter(Tree left) {
  ++at_;
  Tree node = make(NK::filter, left->start);
  const Type& whole = *left->type;
  const Type* element = whole.kind == Type::Kind::list ? whole.element : &whole;
  Scope items(scope_, scope_->layout());
  const std::uint32_t slot = scope_->layout()->take();
  items.set_item(slot, element && element->kind != Type::Kind::any ? element : nullptr);
  node->slots.push_back(slot);
  node->children.push_back(std::move(left));
  filters_.push_back({slot, scope_->layout()->level, node.get()});
  Tree predicate = within(items, [&] { return nested([&] { return expression(); }); });
  filters_.pop_back();
  expect("]");
  const bool index = predicate->type->kind == Type::Kind::number && !node->refers_to_item;
  node->type = index                            ? (element ? element : any_type())
               : whole.kind == Type::Kind::list ? &whole
               : whole.kind == Type::Kind::any  ? any_type()
                                                : context_.types->list_of(&whole);
  if (!index && predicate->type->kind != Type::Kind::boolean && !node->refers_to_item)
    node->type = any_type();
  node->children.push_back(std::move(predicate));
  return finish(std::move(node));
}

Tree Parser::call(Tree callee) {
  ++at_;
  const bool named = argument_name_follows();
  Tree node = make(named ? NK::named_call : NK::call, callee->start);
  const Node& function = *callee;
  if (function.binding.kind == Binding::Kind::builtin) {
    node->type = builtin_result_type(function.binding.index, *context_.types);
  } else if (function.type->kind == Type::Kind::function && function.type->result) {
    node->type = function.type->result;
  }
  node->children.push_back(std::move(callee));
  nested([&] {
    if (accept(")")) return;
    do {
      if (named) {
        node->names.push_back(name_until(":"));
        expect(":");
      }
      node->children.push_back(expression());
    } while (accept(","));
    expect(")");
  });
  if (node->children[0]->binding.kind == Binding::Kind::builtin && !named) refine_builtin_type(*node);
  return finish(std::move(node));
}

void Parser::refine_builtin_type(Node& node) {
  const std::string_view name = node.children[0]->text;
  if (node.children.size() < 2) return;
  const Type* first = node.children[1]->type;
  const bool keeps = name == "sublist" || name == "append" || name == "reverse" || name == "remove" ||
                     name == "distinct values" || name == "sort" || name == "insert before";
  if (keeps && first->kind == Type::Kind::list) node.type = first;
  const bool joins = name == "concatenate" || name == "union";
  if (joins && first->kind == Type::Kind::list) {
    const bool same = std::all_of(node.children.begin() + 1, node.children.end(), [&](const Tree& argument) {
      return fits(*argument->type, *first) && fits(*first, *argument->type);
    });
    if (same) node.type = first;
  }
  if ((name == "min" || name == "max") && node.children.size() == 2 && first->kind == Type::Kind::list &&
      first->element) {
    node.type = first->element;
  }
}

bool Parser::argument_name_follows() const {
  for (std::size_t i = at_; i < tokens_.size(); ++i) {
    const Token& token = tokens_[i];
    if (token.is(":")) return i > at_;
    if (token.kind == Token::Kind::end || token.kind == Token::Kind::string) return false;
    for (const std::string_view stop :
         {",", "(", ")", "[", "]", "{", "}", "=", "<", ">", "..", "!=", "<=", ">="}) {
      if (token.is(stop)) return false;
    }
  }
  return false;
}

}  // namespace engine
