// Where rulesets lie, and reading them by id.

#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "command.h"
#include "engine/ruleset.h"

namespace cli {

/// `--rulesets` or DUEWARD_RULESETS; else the first that exists of: beside the program, the installed share
/// folder, the source tree. Fails as unreadable input.
std::filesystem::path rulesets_folder(const CommonOptions& options);

/// The folders in it that hold a `ruleset.dmn`, by name.
std::vector<std::string> ruleset_ids(const std::filesystem::path& folder);

struct RulesetFile {
  std::shared_ptr<const engine::Ruleset> ruleset;
  std::string bytes;  ///< Of ruleset.dmn: what its digest stands for.
};

/// Reads and checks `folder`/`id`/ruleset.dmn. An unknown id is wrong usage and names the nearest; a broken
/// file is unreadable input.
RulesetFile read_ruleset(const std::filesystem::path& folder, const std::string& id);

}  // namespace cli
