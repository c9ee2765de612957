// The paths of open facts as a clinician says them: `lesion L2 histology type` for `exam.lesions[1].histology.type`.

#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace engine {

/// `text` with every path of a lesion of the examination in words, also several together as paths_in_words() tells them:
/// `lesions L1 to L3, L5 histology`. `ids` by place in the record; none: the text as it is.
std::string with_lesion_names(std::string_view text, const std::vector<std::string>& ids);

}  // namespace engine
