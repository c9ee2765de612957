// The built-in functions that the naive evaluator knows. docs/feel.md, section 12.

#pragma once

#include <optional>

#include "engine/differential/plain_value.h"

namespace testing {

/// How bad what is noted is.
enum class Fault : std::uint8_t { remark, error };

/// What a built-in needs of its caller.
struct NaiveCall {
  Items arguments;
  std::function<Plain(Fault)> fault;  ///< Notes it, and gives null.
};

struct NaiveBuiltin {
  const char* name;
  std::size_t least, most;  ///< How many arguments.
  Plain (*run)(NaiveCall& call);
};

/// Null pointer when it is not known.
const NaiveBuiltin* naive_builtin(std::string_view name);

}  // namespace testing
