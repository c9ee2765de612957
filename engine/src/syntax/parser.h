// FEEL text to tree. Names are resolved while parsing, since only the scope tells where a name ends.
// Source: DMN 1.5, 10.3.1.2 (grammar); docs/feel.md lists the readings where the text is open.

#pragma once

#include <string_view>

#include "engine/result.h"
#include "syntax/scope.h"
#include "syntax/tree.h"

namespace engine {

struct Parsed {
  Tree tree;
  Errors warnings;      ///< Unknown and shadowed names, unknown keys, types that clash, branches never reached.
};

struct ParseContext {
  const Scope* scope;
  TypeStore* types;              ///< For type names, and for the types that the text makes.
  std::string_view source;       ///< What errors call the text.
};

/// An expression. Empty text is null.
Result<Parsed> parse_expression(std::string_view text, const ParseContext& context);

/// Unary tests: a table cell, allowed values. Empty text and `-` are true for every value. `?` must be a variable of
/// the scope.
Result<Parsed> parse_unary_tests(std::string_view text, const ParseContext& context);

/// Line, column and excerpt of the bytes [start, start + size) of `text`.
Place place_of(std::string_view text, std::uint32_t start, std::uint32_t size, std::string_view source);

}  // namespace engine
