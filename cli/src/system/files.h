// Files and folders. Every fault is an Error that names the file in the user's words.

#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"

namespace cli {

/// The whole of a file, or of standard input when `path` is `-`.
engine::Result<std::string> read_file(const std::string& path);

/// Writes beside `path`, flushes to the disk, then renames: a reader sees the old file or the new one, and a
/// crash leaves no half.
engine::Result<engine::Done> write_atomically(const std::filesystem::path& path, std::string_view bytes);

/// Moves `from` into `folder` in one step, durably, under its own name; where that is taken, with `.2`, `.3`
/// ... behind it: nothing is ever overwritten. Gives the new path; none when `from` is gone, taken by another
/// process.
engine::Result<std::optional<std::filesystem::path>> move_into(const std::filesystem::path& from,
                                                               const std::filesystem::path& folder);

/// Makes the folder and those above it.
engine::Result<engine::Done> make_folder(const std::filesystem::path& path);

/// The regular files directly in `folder` whose names do not begin with a dot, by name.
engine::Result<std::vector<std::filesystem::path>> files_in(const std::filesystem::path& folder);

/// The folder that holds the running program.
std::filesystem::path program_folder();

/// How files and streams are named in errors: `-` is `standard input`.
std::string source_name(const std::string& path);

/// `message` with the system's reason for the last failed call.
engine::Error system_error(std::string code, const std::string& message, const std::string& path, int number);

}  // namespace cli
