// What an evaluation noted as errors, in the form that people and programs are given.

#pragma once

#include "engine/diagnostic.h"
#include "engine/result.h"

namespace engine {

/// Adds the diagnostics of severity `error`, each once, at most twenty; names the decision and the rule.
void add_errors(const Diagnostics& diagnostics, Errors& errors);

}  // namespace engine
