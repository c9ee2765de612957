#include "system/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <system_error>

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

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

// Sets errno to EEXIST where there is a file of that name already.
bool rename_if_free(const fs::path& from, const fs::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  // A file system without that call: a link fails in the same way when the name is taken.
  return ::link(from.c_str(), to.c_str()) == 0 && ::unlink(from.c_str()) == 0;
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

Result<Done> write_atomically(const fs::path& path, std::string_view bytes) {
  const fs::path draft =
      path.parent_path() / ("." + path.filename().string() + "." + std::to_string(::getpid()));
  {
    const Descriptor descriptor(::open(draft.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0640));
    if (!descriptor.is_open() || !write_all(descriptor.number(), bytes) ||
        ::fsync(descriptor.number()) != 0) {
      const int number = errno;
      ::unlink(draft.c_str());
      return system_error("unwritable_file", "cannot be written", path, number);
    }
  }
  if (::rename(draft.c_str(), path.c_str()) != 0) {
    const int number = errno;
    ::unlink(draft.c_str());
    return system_error("unwritable_file", "cannot be written", path, number);
  }
  make_durable(path.has_parent_path() ? path.parent_path() : ".");
  return Done{};
}

Result<std::optional<fs::path>> move_into(const fs::path& from, const fs::path& folder) {
  fs::path to = folder / from.filename();
  for (int number = 2; !rename_if_free(from, to); ++number) {
    if (errno == ENOENT && !fs::exists(from)) return std::optional<fs::path>{};
    if (errno != EEXIST)
      return system_error("unmovable_file", "cannot be moved to `" + to.string() + "`", from, errno);
    to = folder / (from.filename().string() + "." + std::to_string(number));
  }
  make_durable(folder);
  make_durable(from.parent_path());
  return std::optional(to);
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

fs::path program_folder() {
  std::error_code fault;
  const fs::path program = fs::read_symlink("/proc/self/exe", fault);
  return fault ? fs::path{} : program.parent_path();
}

}  // namespace cli
