// Which rules of a decision table one column leaves, looked up instead of tested cell by cell.
//
// A column can be indexed when each of its cells compares the tested value with constants of one type:
// numbers, strings or booleans. For a value of that type such cells cannot note an error, so looking up gives
// what testing would.

#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "evaluate/code.h"

namespace engine {

class ColumnIndex {
 public:
  /// From the cells of the column, one a rule; a null pointer accepts every value. None when it cannot be
  /// indexed.
  static std::optional<ColumnIndex> of(const std::vector<const Test*>& cells);

  /// Whether lookup() may be asked for `value`.
  bool covers(const Value& value) const { return value.is(kind_); }
  /// One bit a rule: whether it accepts `value`.
  std::span<const std::uint64_t> lookup(const Value& value) const;

 private:
  std::size_t position(const Value& value) const;

  Kind kind_ = Kind::null;
  std::size_t words_ = 0;  ///< Of 64 bits, for one mask.
  std::vector<std::string_view> strings_;
  /// Numbers where some cell changes its answer; masks lie at 2i for what is below the i-th, 2i + 1 for it.
  std::vector<Decimal> numbers_;
  std::vector<std::uint64_t> masks_;
};

}  // namespace engine
