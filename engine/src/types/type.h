// Types as FEEL text and item definitions name them. Used at load to find clashes, and at run time to convert values.
// Source: DMN 1.5, 10.3.2.9 (type lattice), 7.3.3 (item definitions).

#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/value.h"

namespace engine {

struct Constraint;  // evaluate/code.h

struct Type {
  enum class Kind : std::uint8_t {
    any, null, number, string, boolean, date, time, date_time, years_and_months, days_and_time, list, context, range,
    function
  };
  struct Field {
    std::string name;
    const Type* type;
  };

  Kind kind = Kind::any;
  std::string name;                      ///< As the item definition calls it; empty for anonymous types.
  const Type* element = nullptr;         ///< Of a list or range; null means any.
  std::vector<Field> fields;             ///< Of a context. Values may have further keys.
  std::vector<const Type*> parameters;   ///< Of a function.
  const Type* result = nullptr;          ///< Of a function.
  std::vector<const Constraint*> constraints;  ///< Allowed values, type constraint; those of the base type as well.
  bool plain = true;                     ///< No constraint here or further down: a value of it need not be walked twice.

  const Field* field(std::string_view key) const {
    for (const Field& f : fields) {
      if (f.name == key) return &f;
    }
    return nullptr;
  }
};

/// The built-in types, one object each.
const Type* basic_type(Type::Kind kind);
const Type* any_type();

/// FEEL's name for a type: `list<number>`.
std::string text_of(const Type& type);

/// Owns types; those made here live as long as the store.
class TypeStore {
 public:
  Type* make(Type::Kind kind) {
    types_.emplace_back().kind = kind;
    return &types_.back();
  }
  const Type* list_of(const Type* element);
  const Type* range_of(const Type* element);

  /// Named types: item definitions, under `prefix.name` when imported.
  void name(std::string name, const Type* type) { named_[std::move(name)] = type; }
  /// Built-in or named; null when unknown. Old names (`dateTime`, `dayTimeDuration`) are known.
  const Type* find(std::string_view name) const;
  std::vector<std::string_view> names() const;

 private:
  std::deque<Type> types_;
  std::map<std::string, const Type*, std::less<>> named_;
};

Type::Kind type_kind_of(Kind kind);

/// True when a value of type `a` fits `b`, so far as types alone tell (section 4.8 of docs/feel.md).
bool fits(const Type& a, const Type& b);

/// True when every value of type `a` conforms to `b`, constraints included, so that converting it would change nothing.
bool surely_conforms(const Type& a, const Type& b);

/// True when the two types have no value in common but null: a comparison of them is a mistake.
bool clash(const Type& a, const Type& b);

}  // namespace engine
