#include "rulesets_folder.h"

#include <algorithm>
#include <system_error>

#include "engine/unverified.h"
#include "failure.h"
#include "rulesets/manifest.h"
#include "shipped_folder.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;

namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "`" : ", `") + word + "`";
  return text;
}

// The model knows DMN, not where this program looks for what is imported.
engine::Errors with_remedies(engine::Errors errors) {
  for (engine::Error& error : errors) {
    if (!error.help.empty()) continue;
    if (error.code == "missing_import")
      error.help = "it is looked for in the folder `shared` beside the rulesets, by `locationURI`";
    if (error.code == "import_cycle")
      error.help = "take one of the imports out: a shared file imports no file that imports it";
  }
  return errors;
}

// Empty when the manifest names these bytes, else what it says instead.
std::string doubt_about(const fs::path& folder, const RulesetFile& file) {
  const auto manifest = require(read_manifest(folder), ExitCode::unreadable_input);
  if (!manifest) return "there is no `" + (folder / manifest_name).string() + "`";
  const auto line = manifest->find(file.ruleset->about.id + "/ruleset.dmn");
  if (line == manifest->end()) return "`" + (folder / manifest_name).string() + "` does not name it";
  if (line->second == file.ruleset->digest) return "";
  return "it has the digest `" + file.ruleset->digest + "`, and `" + (folder / manifest_name).string() +
         "` states `" + line->second + "`";
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
  if (auto shipped = shipped_folder("rulesets", DUEWARD_SOURCE_RULESETS)) return *shipped;
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

void require_known(const fs::path& folder, const std::string& id) {
  const std::vector<std::string> known = ruleset_ids(folder);  // also keeps `../` and the like out of paths
  if (std::find(known.begin(), known.end(), id) != known.end()) return;
  const std::string near = engine::nearest(id, {known.begin(), known.end()});
  std::string help = near.empty() ? "" : "did you mean `" + near + "`? ";
  help += known.empty() ? "the folder holds no ruleset; name another with `--rulesets DIR`"
                        : "there are " + joined(known);
  fail(ExitCode::wrong_usage,
       {"unknown_ruleset", "no ruleset `" + id + "` in `" + folder.string() + "`", {}, help});
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

engine::Result<RulesetFile> load_ruleset_file(const fs::path& folder, const std::string& id) {
  const std::string path = (folder / id / "ruleset.dmn").string();
  auto bytes = read_file(path);
  if (!bytes) return bytes.errors();
  auto ruleset = engine::load_ruleset(*bytes, path, importer_beside(path));
  if (!ruleset) return with_remedies(ruleset.errors());
  if ((*ruleset)->about.id != id) {
    return engine::Error{"ruleset_misplaced",
                         "`" + path + "` calls itself `" + (*ruleset)->about.id + "`",
                         {},
                         "its folder must have the same name"};
  }
  return RulesetFile{std::move(*ruleset), std::move(*bytes)};
}

RulesetFile read_ruleset(const fs::path& folder, const std::string& id) {
  require_known(folder, id);
  return require(load_ruleset_file(folder, id), ExitCode::unreadable_input);
}

RulesetFile ruleset_in_force(const fs::path& folder, const std::string& id, Trust trust) {
  RulesetFile file = read_ruleset(folder, id);
  const std::string doubt = doubt_about(folder, file);
  if (doubt.empty()) return file;
  if (trust == Trust::unverified_too) return {engine::as_unverified(*file.ruleset), std::move(file.bytes)};
  fail(ExitCode::unreadable_input,
       {"unverified_ruleset",
        "the ruleset `" + id + "` is not verified: " + doubt,
        {},
        "put the right file back; when the change is meant, `dueward rulesets verify --write` enters it; "
        "`--unverified` answers all the same, and every answer says so"});
}

}  // namespace cli
