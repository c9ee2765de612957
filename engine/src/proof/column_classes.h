// The values of one column of a decision table, parted into classes that its cells cannot tell apart.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "evaluate/code.h"

namespace engine {

struct ColumnClass {
  std::vector<std::uint64_t> accepted_by;  ///< One bit a rule.
  std::string text;                        ///< `is 0`, `is more than 10`, `is "low"`, `is anything`.
};

/// None when a cell, or the allowed values, are not constants of one kind.
std::optional<std::vector<ColumnClass>> classes_of(const TableCells::Column& column);

}  // namespace engine
