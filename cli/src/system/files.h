// Files and folders. Every fault is an Error that names the file in the user's words.

#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/result.h"

namespace cli {

/// The whole of a file, or of standard input when `path` is `-`.
engine::Result<std::string> read_file(const std::string& path);

/// Writes beside `path`, flushes to the disk, then renames: a reader sees the old file or the new one, and a
/// crash leaves no half.
engine::Result<engine::Done> write_atomically(const std::filesystem::path& path, std::string_view bytes);

/// Writes and flushes a file that nobody reads yet: a crash may leave a half of it.
engine::Result<engine::Done> write_draft(const std::filesystem::path& path, std::string_view bytes);

/// Renames in one step, durably; where the name is taken, `.2`, `.3` ... is put behind it: nothing is ever
/// overwritten. Gives the new path; none when `from` is gone, taken by another process.
engine::Result<std::optional<std::filesystem::path>> move_to(const std::filesystem::path& from,
                                                             const std::filesystem::path& to);

/// `move_to` a folder, under its own name.
engine::Result<std::optional<std::filesystem::path>> move_into(const std::filesystem::path& from,
                                                               const std::filesystem::path& folder);

/// Takes the file away; it is no fault when it is not there.
engine::Result<engine::Done> remove_file(const std::filesystem::path& path);

/// Keeps other processes that ask for the same out of a folder, for as long as it lives; a process that ends,
/// however, gives it back.
class FolderLock {
 public:
  /// Fails with `folder_in_use` when another holds it.
  static engine::Result<FolderLock> take(const std::filesystem::path& folder);
  FolderLock(FolderLock&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_;
};

/// Makes the folder and those above it.
engine::Result<engine::Done> make_folder(const std::filesystem::path& path);

/// The regular files directly in `folder` whose names do not begin with a dot, by name.
engine::Result<std::vector<std::filesystem::path>> files_in(const std::filesystem::path& folder);

/// Whoever has an account on the machine may read the file, as far as its own rights go.
bool everyone_may_read(const std::filesystem::path& path);

/// The folder that holds the running program.
std::filesystem::path program_folder();

/// How files and streams are named in errors: `-` is `standard input`.
std::string source_name(const std::string& path);

/// `message` with the system's reason for the last failed call.
engine::Error system_error(std::string code, const std::string& message, const std::string& path, int number);

}  // namespace cli
