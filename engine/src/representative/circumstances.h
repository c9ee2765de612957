// In what one patient or examination may differ from the ordinary, besides its findings.

#pragma once

#include <functional>
#include <vector>

#include "engine/record.h"

namespace engine {

/// Changes an ordinary record in one respect.
using Circumstance = std::function<void(Record&)>;

/// Preparation, reach, procedure, indication, background, setting, conditions: one change each.
std::vector<Circumstance> circumstances();

}  // namespace engine
