// The manifest of a folder of rulesets: which bytes each file had when somebody last vouched for them.
// Format: docs/ruleset-format.md.

#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/result.h"

namespace cli {

inline constexpr const char* manifest_name = "MANIFEST";

/// Digest by path, relative to the folder, with `/` between its parts.
using Manifest = std::map<std::string, std::string>;

/// What `folder`/MANIFEST states; no value when there is none. Fails with `malformed_manifest`, each faulty
/// line named.
engine::Result<std::optional<Manifest>> read_manifest(const std::filesystem::path& folder);

/// What it would have to state now: every `ID/ruleset.dmn` and every `shared/*.dmn`.
engine::Result<Manifest> manifest_of_files(const std::filesystem::path& folder);

/// `sha256:...  path`, a line each, sorted by path.
std::string text_of(const Manifest& manifest);

/// Every way in which the files differ from `stated`: `manifest_differs`, `not_in_manifest`, `file_missing`.
engine::Errors differences(const Manifest& stated, const Manifest& found,
                           const std::filesystem::path& folder);

}  // namespace cli
