// The rulesets of the project, as tests load them.

#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "engine/ruleset.h"
#include "support/places.h"

namespace support {

inline const std::filesystem::path rulesets_folder = source("rulesets");

inline std::string bytes_of_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Sorted.
inline std::vector<std::string> shipped_ruleset_ids() {
  std::vector<std::string> ids;
  for (const auto& entry : std::filesystem::directory_iterator(rulesets_folder)) {
    if (std::filesystem::exists(entry.path() / "ruleset.dmn")) ids.push_back(entry.path().filename().string());
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

/// Files that a ruleset in `folder` imports, by their place relative to it.
inline engine::Model::Importer importer_from(std::filesystem::path folder) {
  return [folder = std::move(folder)](const engine::Import& import) -> std::optional<std::string> {
    const std::filesystem::path path = folder / import.location;
    if (!std::filesystem::exists(path)) return std::nullopt;
    return bytes_of_file(path);
  };
}

inline engine::Result<std::shared_ptr<const engine::Ruleset>> load_shipped(const std::string& id) {
  const std::filesystem::path folder = rulesets_folder / id;
  return engine::load_ruleset(bytes_of_file(folder / "ruleset.dmn"), "rulesets/" + id + "/ruleset.dmn",
                              importer_from(folder));
}

}  // namespace support
