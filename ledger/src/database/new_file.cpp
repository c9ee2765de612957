#include "ledger/new_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "places.h"

namespace ledger {

namespace fs = std::filesystem;
using engine::Done;
using engine::Error;
using engine::Result;

namespace {

std::string reason() {
  return std::generic_category().message(errno);
}

bool write_all(const std::string& path, std::string_view bytes) {
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_APPEND | O_CLOEXEC);
  if (descriptor < 0) return false;
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) break;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  const int number = errno;
  const bool closed = ::close(descriptor) == 0;
  if (!bytes.empty()) errno = number;
  return bytes.empty() && closed;
}

bool flush(const fs::path& path, int flags) {
  const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
  if (descriptor < 0) return false;
  const bool flushed = ::fsync(descriptor) == 0;
  return ::close(descriptor) == 0 && flushed;
}

}  // namespace

bool rename_if_free(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  // A file system without that call: a link fails in the same way when the name is taken.
  return ::link(from.c_str(), to.c_str()) == 0 && ::unlink(from.c_str()) == 0;
}

bool make_private(const std::string& path) {
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  return descriptor >= 0 && ::close(descriptor) == 0;
}

Draft::Draft(std::string file) : file_(std::move(file)), part_(file_ + ".part") {}

Draft::~Draft() {
  if (is_ours_) remove();
}

/// With what SQLite may have laid beside it.
void Draft::remove() {
  std::error_code ignored;
  for (const char* end : {"", "-journal", "-wal", "-shm"}) fs::remove(part_ + end, ignored);
}

Error Draft::not_written(const std::string& why) const {
  return {"file_not_written", "the file cannot be written: " + why, in_file(file_),
          "check the folder, its rights and the room on the disk"};
}

Result<Done> Draft::begin() {
  for (const char* end : {"", "-wal", "-journal"}) {
    std::error_code ignored;
    if (!fs::exists(file_ + end, ignored)) continue;
    return Error{"file_exists", "there is a file already", in_file(file_ + end), "name another one"};
  }
  return make();
}

Result<Done> Draft::make() {
  remove();
  if (!make_private(part_)) return not_written(reason());
  is_ours_ = true;
  return Done{};
}

Result<Done> Draft::flush_written() {
  if (!write_all(part_, waiting_)) return not_written(reason());
  waiting_.clear();
  return Done{};
}

Result<Done> Draft::write(std::string_view bytes) {
  constexpr std::size_t piece = 1 << 20;
  waiting_ += bytes;
  return waiting_.size() < piece ? Done{} : flush_written();
}

Result<Done> Draft::put_in_place() {
  if (auto written = flush_written(); !written) return written;
  if (!flush(part_, O_RDWR)) return not_written("it cannot be flushed to the disk: " + reason());
  if (!rename_if_free(part_, file_)) {
    if (errno == EEXIST)
      return Error{"file_exists", "there is a file already", in_file(file_), "name another one"};
    return not_written(reason());
  }
  is_ours_ = false;
  const fs::path folder = fs::path(file_).has_parent_path() ? fs::path(file_).parent_path() : ".";
  if (!flush(folder, O_RDONLY | O_DIRECTORY))
    return not_written("it is there, but its folder cannot be flushed: " + reason());
  return Done{};
}

}  // namespace ledger
