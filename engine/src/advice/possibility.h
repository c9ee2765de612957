// One of the outcomes that a record can have, as it is told.

#pragma once

#include <string_view>

#include "advice/consultation.h"
#include "advice/outcomes.h"
#include "engine/advice.h"

namespace engine {

/// Stands last among the ways when there are more than are told.
inline constexpr std::string_view other_ways = "in other ways, too";

/// The outcome with that number, and up to four ways that lead to it.
Possibility possibility(const Outcomes& outcomes, std::uint32_t outcome, const Consultation& consultation);

}  // namespace engine
