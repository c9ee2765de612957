#include "rulesets_folder.h"

#include <algorithm>
#include <system_error>

#include "failure.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;

namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "`" : ", `") + word + "`";
  return text;
}

[[noreturn]] void fail_unknown(const fs::path& folder, const std::string& id) {
  const std::vector<std::string> known = ruleset_ids(folder);
  const std::string near = engine::nearest(id, {known.begin(), known.end()});
  std::string help = near.empty() ? "" : "did you mean `" + near + "`? ";
  help += known.empty() ? "the folder holds no ruleset; name another with `--rulesets DIR`"
                        : "there are " + joined(known);
  fail(ExitCode::wrong_usage,
       {"unknown_ruleset", "no ruleset `" + id + "` in `" + folder.string() + "`", {}, help});
}

}  // namespace

fs::path rulesets_folder(const CommonOptions& options) {
  std::error_code ignored;
  if (!options.rulesets.empty()) {
    if (fs::is_directory(options.rulesets, ignored)) return options.rulesets;
    fail(ExitCode::unreadable_input, {"unreadable_folder",
                                      "`" + options.rulesets + "` is no folder",
                                      {},
                                      "`--rulesets` names the folder that holds one folder a ruleset"});
  }
  const fs::path program = program_folder();
  const fs::path candidates[] = {program / "rulesets", program.parent_path() / "share/dueward/rulesets",
                                 DUEWARD_SOURCE_RULESETS};
  for (const fs::path& candidate : candidates) {
    if (fs::is_directory(candidate, ignored)) return candidate;
  }
  fail(ExitCode::unreadable_input, {"no_rulesets",
                                    "no folder of rulesets is found",
                                    {},
                                    "name it with `--rulesets DIR` or DUEWARD_RULESETS"});
}

std::vector<std::string> ruleset_ids(const fs::path& folder) {
  std::vector<std::string> ids;
  std::error_code fault;
  for (fs::directory_iterator entry(folder, fault), end; !fault && entry != end; entry.increment(fault)) {
    std::error_code none;
    if (fs::is_regular_file(entry->path() / "ruleset.dmn", none))
      ids.push_back(entry->path().filename().string());
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

engine::Model::Importer importer_beside(const fs::path& file) {
  return [file](const engine::Import& import) -> std::optional<std::string> {
    const fs::path shared = file.parent_path().parent_path() / "shared";
    const fs::path wanted = (file.parent_path() / import.location).lexically_normal();
    if (wanted.parent_path() != shared.lexically_normal()) return std::nullopt;  // nothing from elsewhere
    auto text = read_file(wanted.string());
    return text ? std::optional<std::string>(std::move(*text)) : std::nullopt;
  };
}

RulesetFile read_ruleset(const fs::path& folder, const std::string& id) {
  const std::vector<std::string> known = ruleset_ids(folder);  // also keeps `../` and the like out of paths
  if (std::find(known.begin(), known.end(), id) == known.end()) fail_unknown(folder, id);
  const std::string path = (folder / id / "ruleset.dmn").string();
  std::string bytes = require(read_file(path), ExitCode::unreadable_input);
  auto ruleset = require(engine::load_ruleset(bytes, path, importer_beside(path)), ExitCode::unreadable_input);
  if (ruleset->about.id != id) {
    fail(ExitCode::unreadable_input, {"ruleset_misplaced",
                                      "`" + path + "` calls itself `" + ruleset->about.id + "`",
                                      {},
                                      "its folder must have the same name"});
  }
  return {std::move(ruleset), std::move(bytes)};
}

}  // namespace cli
