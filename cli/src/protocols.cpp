#include "protocols.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "engine/record.h"
#include "rulesets_folder.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

const std::set<std::string> keys = {"id", "title", "rulesets", "settings", "interval_end"};

class PresetReader {
 public:
  PresetReader(const fs::path& folder, fs::path file) : folder_(folder), file_(std::move(file)) {}

  Result<ProtocolPreset> read(const std::string& text) {
    const json given = json::parse(text, nullptr, false);
    if (!given.is_object()) {
      fault("malformed_protocol", "expected a JSON object", "", "docs/protocols.md has an example");
      return errors_;
    }
    for (const auto& [key, value] : given.items()) {
      if (!keys.contains(key))
        fault("malformed_protocol", "a protocol has no `" + key + "`", key,
              "it has `id`, `title`, `rulesets`, `settings` and `interval_end`");
    }
    ProtocolPreset preset;
    preset.id = word(given, "id");
    preset.title = word(given, "title");
    read_rulesets(given.value("rulesets", json()), preset);
    read_settings(given.value("settings", json::object()), preset);
    preset.interval_end = word(given, "interval_end");
    if (!preset.interval_end.empty() && preset.interval_end != "from" && preset.interval_end != "to")
      fault("malformed_protocol", "`" + preset.interval_end + "` was read, expected `from` or `to`",
            "interval_end", "");
    if (!preset.id.empty() && preset.id != file_.stem().string())
      fault("malformed_protocol", "the protocol calls itself `" + preset.id + "`", "id",
            "its file must have the same name");
    if (!errors_.empty()) return errors_;
    return preset;
  }

 private:
  void fault(std::string code, std::string message, const std::string& path, std::string help) {
    Error error{std::move(code), std::move(message), {}, std::move(help)};
    error.place.source = file_.string();
    error.place.path = path;
    errors_.push_back(std::move(error));
  }

  std::string word(const json& given, const std::string& key) {
    const json value = given.value(key, json());
    if (value.is_string() && !value.get<std::string>().empty()) return value.get<std::string>();
    fault("malformed_protocol", "`" + key + "` is missing, expected a string that is not empty", key, "");
    return {};
  }

  void read_rulesets(const json& list, ProtocolPreset& preset) {
    const std::vector<std::string> known = ruleset_ids(folder_);
    if (!list.is_array() || list.empty())
      return fault("malformed_protocol", "`rulesets` is missing, expected a list of ids", "rulesets", "");
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string path = "rulesets[" + std::to_string(i) + "]";
      if (!list[i].is_string()) {
        fault("malformed_protocol", "`" + list[i].dump() + "` was read, expected the id of a ruleset", path,
              "");
        continue;
      }
      const std::string id = list[i].get<std::string>();
      if (std::find(known.begin(), known.end(), id) == known.end()) {
        const std::string near = engine::nearest(id, {known.begin(), known.end()});
        fault("unknown_ruleset",
              "the protocol names the ruleset `" + id + "`, which is not in `" + folder_.string() + "`", path,
              near.empty() ? "`dueward rulesets list` shows what there is" : "did you mean `" + near + "`?");
      }
      preset.rulesets.push_back(id);
    }
  }

  void read_settings(const json& settings, ProtocolPreset& preset) {
    if (!settings.is_object())
      return fault("malformed_protocol", "`settings` is no object", "settings",
                   "`{}` leaves each ruleset its defaults");
    engine::Record nobody;
    nobody.canonical = "{}";
    for (const auto& [key, value] : settings.items()) {
      const std::string assignment =
          key + "=" + (value.is_string() ? value.get<std::string>() : value.dump());
      const auto applied = engine::apply_setting(nobody, assignment);
      if (!applied) {
        for (Error error : applied.errors()) {
          error.place.source = file_.string();
          errors_.push_back(std::move(error));
        }
      }
      preset.settings.push_back(assignment);
    }
  }

  const fs::path& folder_;
  fs::path file_;
  Errors errors_;
};

}  // namespace

std::vector<std::string> protocol_ids(const fs::path& rulesets) {
  std::vector<std::string> ids;
  std::error_code ignored;
  if (!fs::is_directory(rulesets / "protocols", ignored)) return ids;
  const auto files = files_in(rulesets / "protocols");
  if (!files) return ids;
  for (const fs::path& file : *files) {
    if (file.extension() == ".json") ids.push_back(file.stem().string());
  }
  return ids;
}

Result<ProtocolPreset> read_protocol(const fs::path& rulesets, const std::string& id) {
  const std::vector<std::string> known =
      protocol_ids(rulesets);  // also keeps `../` and the like out of paths
  if (std::find(known.begin(), known.end(), id) == known.end()) {
    const std::string near = engine::nearest(id, {known.begin(), known.end()});
    std::string names;
    for (const std::string& name : known) names += (names.empty() ? "`" : ", `") + name + "`";
    return Error{"unknown_protocol",
                 "no protocol `" + id + "` in `" + (rulesets / "protocols").string() + "`",
                 {},
                 (near.empty() ? "" : "did you mean `" + near + "`? ") +
                     (names.empty() ? "the folder has none" : "there are " + names)};
  }
  const fs::path file = rulesets / "protocols" / (id + ".json");
  const auto text = read_file(file.string());
  if (!text) return text.errors();
  return PresetReader(rulesets, file).read(*text);
}

}  // namespace cli
