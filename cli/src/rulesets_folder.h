// Where rulesets lie, and reading them by id.

#pragma once

#include <cstdint>
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

/// Ends the command as wrong usage, naming the nearest, when `folder` has no ruleset `id`.
void require_known(const std::filesystem::path& folder, const std::string& id);

struct RulesetFile {
  std::shared_ptr<const engine::Ruleset> ruleset;
  std::string bytes;  ///< Of ruleset.dmn: what its digest stands for.
};

/// Reads what a ruleset of this folder imports: from its neighbour `shared`, and from nowhere else.
engine::Model::Importer importer_beside(const std::filesystem::path& ruleset_file);

/// Loads `folder`/`id`/ruleset.dmn, every fault in one run; `id` is one of ruleset_ids().
engine::Result<RulesetFile> load_ruleset_file(const std::filesystem::path& folder, const std::string& id);

/// Reads and checks `folder`/`id`/ruleset.dmn. An unknown id is wrong usage and names the nearest; a broken
/// file is unreadable input.
RulesetFile read_ruleset(const std::filesystem::path& folder, const std::string& id);

/// Whose bytes a command may answer with.
enum class Trust : std::uint8_t {
  manifest_only,   ///< Those that the folder's MANIFEST names.
  unverified_too,  ///< Others too; every answer then carries a caution (engine/unverified.h).
};

/// The same, to give advice with. A file that the manifest does not name is unreadable input,
/// `unverified_ruleset`.
RulesetFile ruleset_in_force(const std::filesystem::path& folder, const std::string& id, Trust trust);

}  // namespace cli
