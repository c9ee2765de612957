// Where folders lie that come with the program: rulesets, templates of letters.

#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace cli {

/// The first that exists of: beside the program, the installed share folder, `source` in the source tree.
std::optional<std::filesystem::path> shipped_folder(const std::string& name,
                                                    const std::filesystem::path& source);

}  // namespace cli
