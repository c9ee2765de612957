// Ranges from text: `range("[1..3]")`.

#pragma once

#include "builtins/index.h"

namespace engine {

Value range_from_text(const BuiltinCall& call);

}  // namespace engine
