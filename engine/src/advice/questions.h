// Which facts to ask for when the answer is not settled, and why each.

#pragma once

#include <vector>

#include "advice/consultation.h"
#include "advice/outcomes.h"
#include "engine/advice.h"

namespace engine {

struct FactsToAsk {
  std::vector<Question> questions;  ///< Awaited histology first; of each kind what decides the most first.
  bool awaited_decides = false;     ///< Histology that the laboratory still owes is among what decides.
  std::size_t awaited_lesions = 0;  ///< Lesions whose awaited histology is asked for.
};

/// Only facts that can change the outcome are asked for; after an exhausted search, all that were read.
///
/// `all_awaited`: also the awaited histology that no run read, because what was met first could not be known.
FactsToAsk facts_to_ask(const Consultation& consultation, const Outcomes& outcomes, bool all_awaited);

}  // namespace engine
