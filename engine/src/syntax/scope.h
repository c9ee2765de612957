// The names that an expression may use, from the innermost scope outward.
//
// FEEL names may contain spaces and symbols, so text can only be split into names against what is in scope: at a place
// where a name may start, the longest known name wins; the innermost wins among equals.
// Source: DMN 1.5, 10.3.1.4 (ambiguities between names and operators).

#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "syntax/token.h"
#include "syntax/tree.h"

namespace engine {

/// Numbers the variables of one function body (or one whole expression).
struct Layout {
  std::uint32_t slots = 0;
  std::uint32_t level = 0;
  std::uint32_t take() { return slots++; }
};

/// A name cut into tokens, for comparison with text.
struct NamePattern {
  struct Part {
    std::string text;
    bool space_before;
  };
  std::vector<Part> parts;

  explicit NamePattern(std::string_view name);
  /// Tokens matched from `at` on, or 0.
  std::uint32_t matches(const std::vector<Token>& tokens, std::size_t at) const;
};

struct KnownName {
  std::string name;
  NamePattern pattern;
  Binding binding;  ///< `up` counts from the level of the scope's layout; see `level`.
  std::uint32_t level = 0;
  const Type* type = any_type();
};

class Scope {
 public:
  Scope(const Scope* outer, Layout* layout) : outer_(outer), layout_(layout) {}

  /// A variable of the current layout; returns its slot.
  std::uint32_t add_variable(std::string_view name, const Type* type = any_type());
  void add(std::string_view name, Binding binding, const Type* type = any_type());

  /// Makes this the scope of a filter over items of type `element`, held in `slot`.
  void set_item(std::uint32_t slot, const Type* element);

  struct Match {
    const KnownName* known = nullptr;  ///< None when only an item key matches, or nothing does.
    std::uint32_t tokens = 0;
    std::vector<ItemKey> item_keys;    ///< Filters between the text and the name.
    std::string name;
    const Type* type = any_type();
  };
  /// The longest name at `at`. When nothing matches: `tokens` is 0, and `item_keys` lists filters over unknown items.
  Match find(const std::vector<Token>& tokens, std::size_t at) const;

  /// Whether what `match`, an item's key, hides is more than a built-in function: a variable, a decision, or the key
  /// of a filter further out.
  bool hides_another(const Match& match) const;

  Layout* layout() const { return layout_; }
  const Scope* outer() const { return outer_; }
  /// All names, for "did you mean".
  std::vector<std::string_view> names() const;

 private:
  const Scope* outer_;
  Layout* layout_;
  std::deque<KnownName> names_;
  bool is_item_ = false;
  std::uint32_t item_slot_ = 0;
  const Type* item_type_ = nullptr;
  std::deque<std::pair<NamePattern, const Type::Field*>> item_fields_;
};

}  // namespace engine
