// Numbers that stand for all others beside some constants: below, on, between and above them.

#pragma once

#include <optional>
#include <vector>

#include "engine/decimal.h"

namespace engine {

/// For the n `marks`, sorted and distinct, 2n + 1 numbers in ascending order: the mark i is at 2i + 1, what
/// lies below it at 2i. Empty for none. No value when 34 digits cannot part them.
std::optional<std::vector<Decimal>> numbers_around(const std::vector<Decimal>& marks);

}  // namespace engine
