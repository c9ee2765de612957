// Branches of an `if` that no evaluation reaches: nearly always a slip of the pen in a rule.

#pragma once

#include <optional>
#include <string_view>

#include "engine/result.h"
#include "syntax/tree.h"

namespace engine {

/// What a condition comes to, whatever the facts are; no value when it may go either way.
std::optional<bool> always(const Node& condition);

/// One warning for each branch of `tree` that is never reached, because its condition is a constant or was
/// decided by an `if` around it. Looks at the text alone: it misses some, and never names one that can be
/// reached.
Errors unreachable_branches(const Node& tree, std::string_view text, std::string_view source);

}  // namespace engine
