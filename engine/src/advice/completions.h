// The search over what the open facts of a record may be: as few runs as show every way it can go.

#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "advice/symmetry.h"
#include "advice/taken_facts.h"

namespace engine {

/// All completions in `box` lead to `outcome`.
struct Leaf {
  static constexpr std::uint32_t unknown = UINT32_MAX;  ///< A fact with nothing to choose from was read.
  Box box;
  std::uint32_t outcome = unknown;
};

struct Search {
  /// Disjoint; together with their mirror images all completions, unless exhausted or stopped.
  std::vector<Leaf> leaves;
  /// The budget did not suffice, or a rule calculates with a size of which only some values were tried: what is missing
  /// from `leaves` is not known.
  bool exhausted = false;
  bool stopped = false;      ///< `run` met an error.
};

/// Calls `run` for one completion after another until none is left that could go another way, at most
/// `budget` times. `run` evaluates with `taken` and returns the number of the outcome, or nothing to stop.
///
/// The widest boxes are looked at first, so that a search that runs out of budget has seen much that differs.
Search search(TakenFacts& taken, const Symmetry& symmetry, std::uint32_t budget,
              const std::function<std::optional<std::uint32_t>()>& run);

/// By variable: whether changing that variable alone, in some completion, changes the outcome. Says yes when
/// it would take too long to show that it does not. `outcome_class` maps outcomes to what is told apart.
std::vector<std::uint8_t> variables_that_matter(const Search& search, std::size_t variables, const Symmetry& symmetry,
                                                const std::vector<std::uint32_t>& outcome_class);

/// The variable in which the two boxes exclude each other, when it is the only one.
std::optional<std::uint32_t> only_difference(const Box& a, const Box& b);

}  // namespace engine
