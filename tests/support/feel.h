// FEEL text to its value's text, for tables of tests.

#pragma once

#include <string>
#include <string_view>

#include "engine/model.h"

namespace testing {

/// The value as a literal; `error: message` when the text does not parse.
inline std::string value_of(std::string_view text, std::span<const engine::Named> scope = {}) {
  engine::Arena arena;
  const auto answer = engine::evaluate(text, scope, arena);
  return answer ? literal_of(answer->value) : "error: " + answer.errors().front().message;
}

/// The codes of the diagnostics, in order, separated by spaces.
inline std::string notes_of(std::string_view text) {
  engine::Arena arena;
  const auto answer = engine::evaluate(text, {}, arena);
  if (!answer) return "error: " + answer.errors().front().message;
  std::string codes;
  for (const engine::Diagnostic& d : answer->diagnostics) codes += (codes.empty() ? "" : " ") + std::string(d.code);
  return codes;
}

/// Whether `tested` (FEEL text) satisfies the unary tests: `true`, `false` or `null`.
inline std::string satisfies(std::string_view tested, std::string_view tests) {
  engine::Arena arena;
  const auto value = engine::evaluate(tested, {}, arena);
  if (!value) return "error: " + value.errors().front().message;
  const auto answer = engine::evaluate_unary_tests(tests, value->value, {}, arena);
  return answer ? literal_of(answer->value) : "error: " + answer.errors().front().message;
}

}  // namespace testing
