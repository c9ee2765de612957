#include "rulesets/manifest.h"

#include <algorithm>

#include "engine/canonical.h"
#include "rulesets_folder.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;
using engine::Error;
using engine::Errors;
using engine::Result;

namespace {

constexpr const char* write_again =
    "`dueward rulesets verify --write` makes it again from the files as they are";

bool is_digest(std::string_view text) {
  constexpr std::string_view prefix = "sha256:";
  return text.size() == prefix.size() + 64 && text.starts_with(prefix) &&
         text.find_first_not_of("0123456789abcdef", prefix.size()) == std::string_view::npos;
}

Error malformed(const fs::path& file, std::uint32_t line, std::string_view text) {
  Error error{
      "malformed_manifest", "expected `sha256:` with 64 digits, two spaces and a path", {}, write_again};
  error.place.source = file.string();
  error.place.line = line;
  error.place.column = 1;
  error.place.excerpt = text;
  return error;
}

Error at(const fs::path& folder, std::string code, std::string message, std::string help) {
  Error error{std::move(code), std::move(message), {}, std::move(help)};
  error.place.source = (folder / manifest_name).string();
  return error;
}

Result<engine::Done> add(Manifest& manifest, const fs::path& folder, const std::string& path) {
  const auto bytes = read_file((folder / path).string());
  if (!bytes) return bytes.errors();
  manifest[path] = engine::digest_text(*bytes);
  return engine::Done{};
}

}  // namespace

Result<std::optional<Manifest>> read_manifest(const fs::path& folder) {
  const fs::path file = folder / manifest_name;
  std::error_code ignored;
  if (!fs::exists(file, ignored)) return std::optional<Manifest>{};
  const auto text = read_file(file.string());
  if (!text) return text.errors();
  Manifest manifest;
  Errors faults;
  std::uint32_t number = 0;
  for (std::size_t from = 0; from < text->size();) {
    const std::size_t end = std::min(text->find('\n', from), text->size());
    const std::string line = text->substr(from, end - from);
    from = end + 1;
    ++number;
    const std::size_t gap = line.find("  ");
    if (gap == std::string::npos || !is_digest(line.substr(0, gap)) || gap + 2 == line.size()) {
      faults.push_back(malformed(file, number, line));
    } else {
      manifest[line.substr(gap + 2)] = line.substr(0, gap);
    }
  }
  if (!faults.empty()) return faults;
  return std::optional(std::move(manifest));
}

Result<Manifest> manifest_of_files(const fs::path& folder) {
  Manifest manifest;
  for (const std::string& id : ruleset_ids(folder)) {
    const auto added = add(manifest, folder, id + "/ruleset.dmn");
    if (!added) return added.errors();
  }
  std::error_code ignored;
  if (!fs::is_directory(folder / "shared", ignored)) return manifest;
  const auto shared = files_in(folder / "shared");
  if (!shared) return shared.errors();
  for (const fs::path& file : *shared) {
    if (file.extension() != ".dmn") continue;
    const auto added = add(manifest, folder, "shared/" + file.filename().string());
    if (!added) return added.errors();
  }
  return manifest;
}

std::string text_of(const Manifest& manifest) {
  std::string text;
  for (const auto& [path, digest] : manifest) text.append(digest).append("  ").append(path).append("\n");
  return text;
}

Errors differences(const Manifest& stated, const Manifest& found, const fs::path& folder) {
  Errors errors;
  for (const auto& [path, digest] : found) {
    const auto line = stated.find(path);
    if (line == stated.end()) {
      errors.push_back(at(folder, "not_in_manifest", "`" + path + "` is not in the manifest",
                          std::string("when it belongs there, ") + write_again));
    } else if (line->second != digest) {
      errors.push_back(
          at(folder, "manifest_differs",
             "`" + path + "` has the digest `" + digest + "`, the manifest states `" + line->second + "`",
             std::string("put the right file back; when the change is meant, ") + write_again));
    }
  }
  for (const auto& [path, digest] : stated) {
    if (found.contains(path)) continue;
    errors.push_back(at(folder, "file_missing", "the manifest states `" + path + "`, which is not there",
                        std::string("put the file back; when it is meant to be gone, ") + write_again));
  }
  return errors;
}

}  // namespace cli
