// Functions as values: written in FEEL, built in, or standing for a decision service.

#pragma once

#include "evaluate/operators.h"

namespace engine {

struct Builtin;  // builtins/index.h

/// What all values of one function have in common.
struct FunctionShape {
  std::string name;  ///< For diagnostics; empty for an anonymous function.
  std::vector<std::string> names;
  std::vector<const Type*> types;  ///< Null: no type declared.
  const Type* result = nullptr;
  const Code* body = nullptr;
  std::vector<std::uint32_t> parameter_slots;
  std::uint32_t slots = 0;
  const Builtin* builtin = nullptr;
  bool external = false;
  bool result_conforms = false;  ///< The body's own type promises `result`.
};

struct Function {
  const FunctionShape* shape;
  Frame* captured;  ///< Variables around it when it was made; null at the top.
};

/// Calls `function`; arguments stand in the order of its parameters. Bit i of `conforming` says that argument i surely
/// has the type that its parameter declares.
Value call(State& state, const Code& at, const Function& function, std::span<const Value> arguments,
           std::uint32_t conforming = 0);

}  // namespace engine
