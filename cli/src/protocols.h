// Protocols: which rulesets a unit follows together. Presets are files, `protocols/ID.json` in the folder of
// rulesets. Format and effect: docs/protocols.md.

#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/result.h"

namespace cli {

struct ProtocolPreset {
  std::string id;
  std::string title;
  std::vector<std::string> rulesets;  ///< Ids; where two answers are equal, the one named first counts.
  std::vector<std::string> settings;  ///< `nation=Scotland`: for records that leave the setting out.
  std::string interval_end;           ///< `from` or `to`: which end of a due window becomes the due date.
};

/// The ids of the presets in `rulesets`, by name.
std::vector<std::string> protocol_ids(const std::filesystem::path& rulesets);

/// Reads `rulesets`/protocols/`id`.json. Strict: every fault in one run. Fails with `unknown_protocol`,
/// `malformed_protocol`, and `unknown_ruleset` for each ruleset that is not in the folder.
engine::Result<ProtocolPreset> read_protocol(const std::filesystem::path& rulesets, const std::string& id);

}  // namespace cli
