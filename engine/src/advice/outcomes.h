// Every next step that the ruleset may give for a record, over all completions of its open facts.

#pragma once

#include <string>
#include <vector>

#include "advice/completions.h"
#include "advice/consultation.h"
#include "advice/next_step.h"

namespace engine {

struct Outcome {
  /// A row that applies in this outcome.
  struct Applies {
    Ground ground;           ///< As first met.
    std::uint32_t runs = 0;  ///< In how many runs it applied.
    bool reworded = false;   ///< Its sentence was not the same in each.
  };
  NextStep step;  ///< Of the first run that led here.
  std::vector<Applies> rows;
  std::uint32_t runs = 0;
};

struct Outcomes {
  std::vector<Outcome> all;            ///< Told apart by what the patient gets and by the row that decides.
  std::vector<std::uint32_t> classes;  ///< By outcome: the first one that agrees with it.
  Search search;

  bool has_unknown() const;
  /// Every completion leads to the same for the patient, and it is known that there is no other.
  bool all_agree() const;
};

/// When the search stopped, `consultation.errors()` says why.
Outcomes find_outcomes(Consultation& consultation, const Date& examined, std::uint32_t budget);

/// The rows of outcomes that agree, each once. Where a sentence rests on one completion of the open facts, it
/// says so.
std::vector<Reason> reasons_of(const Outcomes& outcomes, const Ruleset& ruleset);

}  // namespace engine
