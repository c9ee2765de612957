// What the open facts of a record may turn out to be, as independent variables with finitely many candidates.
//
// A histology's type and its dysplasia are one variable with pairs as candidates, since the type narrows what
// the dysplasia may be. A size takes the values that the ruleset's own thresholds tell apart.

#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "advice/candidate_set.h"
#include "engine/arena.h"
#include "engine/decimal.h"
#include "engine/record.h"
#include "engine/value.h"
#include "record/bind.h"

namespace engine {

struct Variable {
  struct Column {
    std::uint32_t fact = 0;
    std::vector<Value> values;  ///< One for each candidate.
  };
  std::vector<Column> columns;  ///< One, or the type and the dysplasia.
  std::uint32_t candidates = 0;
  /// For a size: what each candidate stands for, in tenths of a millimetre; else empty.
  struct Stretch {
    std::int32_t from = 0, to = 0;  ///< Both included.
  };
  std::vector<Stretch> stretches;
};

struct OpenVariables {
  static constexpr std::uint32_t none = UINT32_MAX;
  struct Where {
    std::uint32_t variable = none;  ///< `none`: assumed, or nothing to choose from.
    std::uint32_t column = 0;
  };
  std::vector<Variable> variables;
  std::vector<Where> of_fact;  ///< By fact id.
};

/// `thresholds` are the numbers the ruleset tests; the sizes that `record` states are added to them, because
/// rules may compare one lesion with another. Values live in `arena` or in `facts`.
OpenVariables open_variables(std::span<const OpenFact> facts, std::span<const Decimal> thresholds,
                             const Record& record, Arena& arena);

/// The sizes to try from `least` to `most` (tenths of a millimetre): every threshold, and up to `between`
/// values of each stretch that two thresholds leave, whole millimetres first. `thresholds` sorted, distinct.
struct SizeCandidate {
  std::int32_t tenths = 0;
  Variable::Stretch stretch;
};
std::vector<SizeCandidate> size_candidates(std::int32_t least, std::int32_t most,
                                           std::span<const std::int32_t> thresholds, std::uint32_t between);

}  // namespace engine
