// The decision `About`: which guideline, which edition, in which state.

#pragma once

#include "engine/result.h"
#include "engine/ruleset.h"
#include "engine/value.h"

namespace engine {

/// Faults are added to `errors`; what could not be read is left empty.
RulesetAbout read_about(const Value& value, Errors& errors);

}  // namespace engine
