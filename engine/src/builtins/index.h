// The built-in functions of FEEL: name, parameters, code. Source: DMN 1.5, 10.3.4.

#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "evaluate/code.h"
#include "evaluate/operators.h"
#include "syntax/scope.h"

namespace engine {

/// One way to call a built-in.
struct Signature {
  std::vector<std::string_view> names;
  std::size_t required = 0;
  bool variadic = false;  ///< Any number of arguments beyond those named.
};

/// One call of a built-in, with its arguments in the order of a signature.
struct BuiltinCall {
  State& state;
  const Code& at;
  std::span<Value> arguments;  ///< The call's own copies: a list of one may be unwrapped in place.
  std::string_view name;
  /// The signature whose names the call used; none for a call by position.
  const Signature* named = nullptr;

  std::size_t count() const { return arguments.size(); }
  const Value& operator[](std::size_t i) const { return arguments[i]; }
  Arena& arena() const { return state.arena; }
  /// Notes that the arguments do not suit, and returns null.
  Value bad(std::string message) const {
    return state.fault(at, "bad_argument", "`" + std::string(name) + "`: " + std::move(message));
  }
  /// The same for an argument of the wrong type.
  Value wrong(std::size_t i, std::string_view expected) const;
};

struct Builtin {
  std::string_view name;
  Value (*run)(const BuiltinCall&);
  std::vector<Signature> signatures;
  Type::Kind result = Type::Kind::any;
};

const std::vector<Builtin>& builtins();
const Type* builtin_result_type(std::uint32_t index, TypeStore& types);

/// The outermost scope: every built-in by its name.
const Scope& builtin_scope();

// Each file of this folder adds its own.
void add_conversion_builtins(std::vector<Builtin>& all);
void add_temporal_builtins(std::vector<Builtin>& all);
void add_string_builtins(std::vector<Builtin>& all);
void add_pattern_builtins(std::vector<Builtin>& all);
void add_list_builtins(std::vector<Builtin>& all);
void add_aggregate_builtins(std::vector<Builtin>& all);
void add_number_builtins(std::vector<Builtin>& all);
void add_context_builtins(std::vector<Builtin>& all);
void add_date_builtins(std::vector<Builtin>& all);
void add_range_builtins(std::vector<Builtin>& all);

}  // namespace engine
