#include "system/files.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <system_error>

#include "ledger/new_file.h"

namespace cli {

namespace {

namespace fs = std::filesystem;
using engine::Done;
using engine::Error;
using engine::Result;

// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }

 private:
  int number_;
};

// Without this a rename may be lost with the machine's power.
void make_durable(const fs::path& folder) {
  const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (descriptor.is_open()) ::fsync(descriptor.number());
}

fs::path folder_of(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

// 0, or the number of the system's reason; then no file is left.
int write_and_flush(const fs::path& path, std::string_view bytes) {
  const Descriptor descriptor(::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0640));
  if (descriptor.is_open() && write_all(descriptor.number(), bytes) && ::fsync(descriptor.number()) == 0) return 0;
  const int number = errno;
  ::unlink(path.c_str());
  return number;
}

Result<std::string> read_all(int descriptor, const std::string& path) {
  std::string bytes;
  char buffer[64 * 1024];
  for (;;) {
    const ssize_t count = ::read(descriptor, buffer, sizeof buffer);
    if (count == 0) return bytes;
    if (count > 0) {
      bytes.append(buffer, static_cast<std::size_t>(count));
    } else if (errno != EINTR) {
      return system_error("unreadable_file", "cannot be read", path, errno);
    }
  }
}

}  // namespace

std::string source_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

Error system_error(std::string code, const std::string& message, const std::string& path, int number) {
  std::string reason = std::generic_category().message(number);
  std::transform(reason.begin(), reason.begin() + 1, reason.begin(), [](char first) {
    return static_cast<char>(std::tolower(static_cast<unsigned char>(first)));
  });
  return {std::move(code), "`" + source_name(path) + "` " + message + ": " + reason, {}, {}};
}

Result<std::string> read_file(const std::string& path) {
  if (path == "-") return read_all(STDIN_FILENO, path);
  const Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (!descriptor.is_open()) return system_error("unreadable_file", "cannot be read", path, errno);
  return read_all(descriptor.number(), path);
}

Result<Done> write_draft(const fs::path& path, std::string_view bytes) {
  const int number = write_and_flush(path, bytes);
  if (number == 0) return Done{};
  return system_error("unwritable_file", "cannot be written", path, number);
}

Result<Done> write_atomically(const fs::path& path, std::string_view bytes) {
  const fs::path draft =
      path.parent_path() / ("." + path.filename().string() + "." + std::to_string(::getpid()));
  int number = write_and_flush(draft, bytes);
  if (number == 0 && ::rename(draft.c_str(), path.c_str()) != 0) {
    number = errno;
    ::unlink(draft.c_str());
  }
  if (number != 0) return system_error("unwritable_file", "cannot be written", path, number);
  make_durable(folder_of(path));
  return Done{};
}

Result<std::optional<fs::path>> move_to(const fs::path& from, const fs::path& to) {
  fs::path free = to;
  for (int number = 2; !ledger::rename_if_free(from, free); ++number) {
    if (errno == ENOENT && !fs::exists(from)) return std::optional<fs::path>{};
    if (errno != EEXIST)
      return system_error("unmovable_file", "cannot be moved to `" + free.string() + "`", from, errno);
    free = to.string() + "." + std::to_string(number);
  }
  make_durable(folder_of(free));
  make_durable(folder_of(from));
  return std::optional(free);
}

Result<std::optional<fs::path>> move_into(const fs::path& from, const fs::path& folder) {
  return move_to(from, folder / from.filename());
}

Result<Done> remove_file(const fs::path& path) {
  if (::unlink(path.c_str()) == 0 || errno == ENOENT) return Done{};
  return system_error("unwritable_file", "cannot be taken away", path, errno);
}

Result<FolderLock> FolderLock::take(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return system_error("unreadable_folder", "cannot be opened", folder, errno);
  FolderLock lock(descriptor);
  if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0) return lock;
  if (errno != EWOULDBLOCK)
    return system_error("unreadable_folder", "cannot be kept to one process", folder, errno);
  return Error{"folder_in_use",
               "another process is at work in `" + folder.string() + "`",
               {},
               "wait until it is done, or name another folder"};
}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

Result<Done> make_folder(const fs::path& path) {
  std::error_code fault;
  fs::create_directories(path, fault);
  if (fault) return system_error("unwritable_folder", "cannot be made", path, fault.value());
  return Done{};
}

Result<std::vector<fs::path>> files_in(const fs::path& folder) {
  std::error_code fault;
  std::vector<fs::path> files;
  for (fs::directory_iterator entry(folder, fault), end; !fault && entry != end; entry.increment(fault)) {
    std::error_code gone;  // taken away between listing and looking
    if (entry->is_regular_file(gone) && !entry->path().filename().string().starts_with('.')) {
      files.push_back(entry->path());
    }
  }
  if (fault) return system_error("unreadable_folder", "cannot be listed", folder, fault.value());
  std::sort(files.begin(), files.end());
  return files;
}

bool everyone_may_read(const fs::path& path) {
  std::error_code fault;
  return (fs::status(path, fault).permissions() & fs::perms::others_read) != fs::perms::none && !fault;
}

fs::path program_folder() {
  std::error_code fault;
  const fs::path program = fs::read_symlink("/proc/self/exe", fault);
  return fault ? fs::path{} : program.parent_path();
}

}  // namespace cli
