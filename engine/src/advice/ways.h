// What leads to an outcome, in as few words as are true: the boxes of a search made as wide as they can be,
// and their text.

#pragma once

#include <span>
#include <string>
#include <vector>

#include "advice/completions.h"
#include "advice/symmetry.h"
#include "record/bind.h"

namespace engine {

struct Ways {
  std::vector<Box> boxes;  ///< Each is enough by itself. They may overlap.
  bool more = false;       ///< There are further ways.
};

/// At most `most` ways to `outcome`, beginning with the leaves that name the fewest facts.
///
/// Of ways that mirror each other one is named. A leaf is widened as far as no leaf of another outcome is met; after an exhausted search, whose leaves are
/// not all, it stays as it is.
Ways simplest_ways(const Search& search, const OpenVariables& variables, const Symmetry& symmetry,
                   std::uint32_t outcome, std::size_t most);

/// `exam.lesions[1].histology.type = tubular adenoma or villous adenoma and exam.lesions[0].size_mm >= 10`.
/// Empty for a box that names no variable.
std::string text_of(const Box& box, const OpenVariables& variables, std::span<const OpenFact> facts);

/// ` (or of others of these 4 lesions, which are alike)`; empty for a box that names no lesion like another.
std::string mirrored_text(const Box& box, const Symmetry& symmetry);

}  // namespace engine
