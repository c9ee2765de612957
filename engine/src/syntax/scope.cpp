#include "syntax/scope.h"

namespace engine {

NamePattern::NamePattern(std::string_view name) {
  const Result<std::vector<Token>> tokens = tokens_of(name);
  if (!tokens) {
    parts.push_back({std::string(name), false});  // never matches: no token is spelt so
    return;
  }
  for (const Token& token : *tokens) {
    if (token.kind == Token::Kind::end) break;
    parts.push_back({std::string(token.text), token.space_before && !parts.empty()});
  }
}

std::uint32_t NamePattern::matches(const std::vector<Token>& tokens, std::size_t at) const {
  if (parts.empty() || at + parts.size() > tokens.size()) return 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Token& token = tokens[at + i];
    if (token.kind == Token::Kind::string || token.text != parts[i].text) return 0;
    if (i > 0 && token.space_before != parts[i].space_before) return 0;
  }
  return static_cast<std::uint32_t>(parts.size());
}

std::uint32_t Scope::add_variable(std::string_view name, const Type* type) {
  const std::uint32_t slot = layout_->take();
  add(name, {Binding::Kind::slot, 0, slot}, type);
  return slot;
}

void Scope::add(std::string_view name, Binding binding, const Type* type) {
  names_.push_back({std::string(name), NamePattern(name), binding, layout_ ? layout_->level : 0, type});
}

void Scope::set_item(std::uint32_t slot, const Type* element) {
  is_item_ = true;
  item_slot_ = slot;
  item_type_ = element;
  bool has_item_key = false;
  if (element && element->kind == Type::Kind::context) {
    for (const Type::Field& field : element->fields) {
      item_fields_.emplace_back(NamePattern(field.name), &field);
      has_item_key = has_item_key || field.name == "item";
    }
  }
  if (!has_item_key) add("item", {Binding::Kind::slot, 0, slot}, element ? element : any_type());
}

Scope::Match Scope::find(const std::vector<Token>& tokens, std::size_t at) const {
  Match best;
  const Scope* best_scope = nullptr;
  const Scope* best_item = nullptr;
  for (const Scope* scope = this; scope; scope = scope->outer_) {
    for (auto known = scope->names_.rbegin(); known != scope->names_.rend(); ++known) {
      const std::uint32_t count = known->pattern.matches(tokens, at);
      if (count > best.tokens) {
        best.tokens = count;
        best.known = &*known;
        best.name = known->name;
        best.type = known->type;
        best_scope = scope;
        best_item = nullptr;
      }
    }
    for (const auto& [pattern, field] : scope->item_fields_) {
      const std::uint32_t count = pattern.matches(tokens, at);
      if (count > best.tokens) {
        best.tokens = count;
        best.known = nullptr;
        best.name = field->name;
        best.type = field->type;
        best_scope = scope;
        best_item = scope;
      }
    }
  }
  // Filters nearer than the match may have the key as well, when their items' keys are not known.
  for (const Scope* scope = this; scope; scope = scope->outer_) {
    const bool certain = scope == best_item;
    if (scope == best_scope && !certain) break;
    const bool unknown_keys = scope->is_item_ && scope->item_fields_.empty() &&
                              (!scope->item_type_ || scope->item_type_->kind == Type::Kind::any ||
                               scope->item_type_->kind == Type::Kind::context);
    if (certain || unknown_keys) {
      Binding item{Binding::Kind::slot, layout_->level - scope->layout_->level, scope->item_slot_};
      best.item_keys.push_back({item, certain});
    }
    if (scope == best_scope) break;
  }
  return best;
}

bool Scope::hides_another(const Match& match) const {
  if (match.known || match.item_keys.empty()) return false;
  bool found = false;
  for (const Scope* scope = this; scope; scope = scope->outer_) {
    for (const auto& [pattern, field] : scope->item_fields_) {
      if (field->name != match.name) continue;
      if (found) return true;
      found = true;
    }
    if (!found) continue;
    for (const KnownName& known : scope->names_) {
      if (known.name == match.name && known.binding.kind != Binding::Kind::builtin) return true;
    }
  }
  return false;
}

std::vector<std::string_view> Scope::names() const {
  std::vector<std::string_view> all;
  for (const Scope* scope = this; scope; scope = scope->outer_) {
    for (const KnownName& known : scope->names_) all.push_back(known.name);
    for (const auto& [pattern, field] : scope->item_fields_) all.push_back(field->name);
  }
  return all;
}

}  // namespace engine
