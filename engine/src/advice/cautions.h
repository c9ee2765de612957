// What a reader of an answer must know before acting on it.

#pragma once

#include <string>
#include <vector>

#include "advice/consultation.h"
#include "engine/advice.h"

namespace engine {

/// Background that the record leaves out and the ruleset read, with what was taken for it.
std::vector<std::string> assumed_facts(const Consultation& consultation);

/// The ruleset's own cautions; that it is not current; rows that rest on memory. `advice` has its reasons,
/// later steps and flags.
void add_cautions(Advice& advice, const Ruleset& ruleset);

/// Always the last.
extern const std::string_view standing_caution;

}  // namespace engine
