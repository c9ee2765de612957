// What stands beside the next step: the decisions `Flags` and `Facts`, over all completions of the open
// facts.

#pragma once

#include "advice/consultation.h"
#include "engine/advice.h"

namespace engine {

struct Beside {
  std::vector<Flag> flags;  ///< Those that hold in every completion, then those that may.
  std::vector<std::pair<std::string, std::string>> facts;
  bool flags_are_complete = true;
  bool facts_are_complete = true;
};

/// `with_possible_flags`: also the flags that hold in some completions only; their sentence says so.
/// Errors go to `consultation.errors()`.
Beside look_beside(Consultation& consultation, std::uint32_t budget, bool with_possible_flags);

}  // namespace engine
