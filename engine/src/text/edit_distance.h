// How far two spellings are apart.

#pragma once

#include <cstddef>
#include <string_view>

namespace engine {

/// The fewest letters to insert, delete, replace, or swap with their neighbour (optimal string alignment).
/// Bytes, not code points: it serves to guess at misspelled English terms.
std::size_t edit_distance(std::string_view a, std::string_view b);

}  // namespace engine
