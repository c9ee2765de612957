// Cuts an input into its documents: one JSON document, or JSON Lines.

#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace ledger {

struct Part {
  std::uint32_t line = 1;  ///< Where it begins in the input, from 1.
  std::string_view text;   ///< Into the input; without the line end.
};

/// Parts in order; blank lines give none. An input in which no line by itself is a JSON object is one
/// document, so that a fault in a record written over several lines is told once.
std::vector<Part> parts_of(std::string_view input);

}  // namespace ledger
