// Names in use and names that are declared.

#include <algorithm>

#include "syntax/parser_productions.h"

namespace engine {

using NK = Node::Kind;

std::string Parser::name_until(std::string_view stop) {
  const std::size_t first = at_;
  std::string name;
  while (peek().kind != Token::Kind::end && !(peek().is(stop) && at_ > first) && !ends_name()) {
    if (at_ > first && peek().space_before) name += ' ';
    name += peek().text;
    ++at_;
  }
  const bool starts_well = at_ > first && tokens_[first].kind == Token::Kind::word;
  if (!starts_well) {
    at_ = first;
    fail("expected a name, found " + found());
  }
  return name;
}

bool Parser::ends_name() const {
  static constexpr std::string_view stops[] = {",", ":", "(", ")", "[", "]", "{", "}", "="};
  return peek().kind == Token::Kind::string ||
         std::any_of(std::begin(stops), std::end(stops), [&](auto s) { return peek().is(s); });
}

Tree Parser::word() {
  const Token& token = peek();
  const Scope::Match match = scope_->find(tokens_, at_);
  if (match.tokens <= 1) {
    if (Tree literal = keyword_literal()) return literal;
  }
  if (token.is("function") && peek(1).is("(") && match.tokens <= 1) return function();
  if (match.tokens == 0 && is_keyword(token.text)) fail("expected an expression, found " + found());
  Tree node = make(NK::name, token.start);
  node->item_keys = match.item_keys;
  mark_item_references(match);
  if (match.tokens == 0) return unknown_name(std::move(node));
  if (scope_->hides_another(match)) warn_shadowed(match);
  node->text = match.name;
  node->type = match.type;
  if (match.known) {
    node->binding = match.known->binding;
    if (node->binding.kind == Binding::Kind::slot) {
      node->binding.up = scope_->layout()->level - match.known->level;
      mark_slot_reference(node->binding.index, match.known->level);
    }
    if (match.name == "?") uses_tested_value_ = true;
  }
  if (!match.item_keys.empty() && !match.item_keys.back().certain) node->type = any_type();
  at_ += match.tokens;
  return finish(std::move(node));
}

Tree Parser::keyword_literal() {
  const Token& token = peek();
  Tree node;
  if (token.is("null")) {
    node = make(NK::null, token.start);
    node->type = basic_type(Type::Kind::null);
  } else if (token.is("true") || token.is("false")) {
    node = make(NK::boolean, token.start);
    node->flag = token.text == "true";
    node->type = basic_type(Type::Kind::boolean);
  } else {
    return nullptr;
  }
  ++at_;
  return finish(std::move(node));
}

Tree Parser::unknown_name(Tree node) {
  node->text = std::string(peek().text);
  constexpr std::size_t most_warnings = 100;
  if (node->item_keys.empty() && warnings_.size() < most_warnings) {
    const std::string near = nearest(peek().text, scope_->names());
    warnings_.push_back({"unknown_name", "nothing here is called `" + node->text + "`",
                         place_of(text_, peek().start, peek().size, context_.source),
                         near.empty() ? "" : "did you mean `" + near + "`?"});
  }
  ++at_;
  return finish(std::move(node));
}

void Parser::warn_shadowed(const Scope::Match& match) {
  warnings_.push_back({"shadowed_name",
                       "`" + match.name + "` is a key of the filter's item and hides what has that name outside",
                       place_of(text_, peek().start, peek().size, context_.source),
                       "write `item." + match.name + "` for the key, or give the outer one another name"});
}

void Parser::mark_item_references(const Scope::Match& match) {
  for (const ItemKey& key : match.item_keys) {
    for (const OpenFilter& filter : filters_) {
      const bool same =
          filter.slot == key.item.index && filter.level == scope_->layout()->level - key.item.up;
      if (!same) continue;
      if (key.certain) filter.node->refers_to_item = true;
      filter.node->may_refer_to_item = true;
    }
  }
}

void Parser::mark_slot_reference(std::uint32_t slot, std::uint32_t level) {
  for (const OpenFilter& filter : filters_) {
    if (filter.slot == slot && filter.level == level) filter.node->refers_to_item = true;
  }
}

}  // namespace engine
