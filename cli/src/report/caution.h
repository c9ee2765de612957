// The words that every answer for a person ends with.

#pragma once

#include <string_view>

namespace cli {

inline constexpr std::string_view caution =
    "This supports and does not replace the judgement of the responsible clinician; local policy decides.";

}  // namespace cli
