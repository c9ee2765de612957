// How intervals, dates and steps are said to a person: `3 years`, `10 March 2029`, `site check in 2 to 6
// months`.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice.h"
#include "engine/in_words.h"

namespace engine {

/// `10 March 2029`, or `10 May 2026 to 10 September 2026`.
std::string in_words(const Window& window);

/// `surveillance colonoscopy in 3 years`, or the action alone.
std::string in_words(Action action, const std::optional<Interval>& interval);

/// `a`, `a or b`, `a, b or c`.
std::string listed(const std::vector<std::string>& items, std::string_view last_separator);

/// JSON paths, those that differ in one number alone together: `exam.lesions[0] to [2], [5].histology`.
std::string paths_in_words(const std::vector<std::string>& paths);

/// `1 lesion`, `2 lesions`.
std::string counted(std::size_t count, std::string_view noun);

}  // namespace engine
