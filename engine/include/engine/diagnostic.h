// What an evaluation noted: FEEL never throws, a fault is null and one of these.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class Severity : std::uint8_t { info, warning, error };

struct Diagnostic {
  Severity severity = Severity::error;
  std::string_view code;       ///< Stable, snake_case, static storage: `unknown_name`.
  std::string element;         ///< Name of the decision, function or input where it arose.
  std::int32_t rule = -1;      ///< Rule of a decision table, from 0; -1 when not in a table.
  std::int32_t cell = -1;      ///< Column, from 0, inputs before outputs; -1 when not in a cell.
  std::uint32_t offset = 0;    ///< First code point in the expression's text.
  std::uint32_t length = 0;    ///< Code points.
  std::string text;            ///< The expression's text.
  std::string message;
};

using Diagnostics = std::vector<Diagnostic>;

}  // namespace engine
