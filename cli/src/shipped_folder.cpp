#include "shipped_folder.h"

#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;

std::optional<fs::path> shipped_folder(const std::string& name, const fs::path& source) {
  const fs::path program = program_folder();
  std::error_code ignored;
  for (const fs::path& candidate : {program / name, program.parent_path() / "share/dueward" / name, source}) {
    if (fs::is_directory(candidate, ignored)) return candidate;
  }
  return std::nullopt;
}

}  // namespace cli
