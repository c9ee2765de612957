// The words that every answer for a person ends with.

#pragma once

#include <string_view>

namespace cli {

inline constexpr std::string_view caution =
    "This supports the judgement of the responsible clinician and does not replace it; local policy decides.";

}  // namespace cli
