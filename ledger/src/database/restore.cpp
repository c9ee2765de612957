#include "ledger/restore.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <memory>
#include <system_error>

#include "database/connection.h"
#include "database/copy.h"
#include "database/entries.h"
#include "database/file.h"
#include "database/inspect.h"
#include "database/store.h"
#include "database/upgrade.h"
#include "ledger/new_file.h"
#include "places.h"

namespace ledger {

namespace fs = std::filesystem;
using engine::Done;
using engine::Error;
using engine::Result;

namespace {

bool exists(const std::string& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

Error not_moved(const std::string& path, const std::string& aside) {
  return {"file_not_written",
          "the ledger cannot be moved to `" + aside + "`: " + std::generic_category().message(errno),
          in_file(path), "name a file on the same disk, in a folder that can be written to"};
}

/// Holds the file so that no process can have it open or come to read it. SQLite's locks on a file are a few
/// bytes at this place, and every process that has a ledger open holds one of them. Source: SQLite, "Database
/// File Format", 1.3 (The Lock-Byte Page).
class Hold {
 public:
  explicit Hold(const std::string& path) : descriptor_(::open(path.c_str(), O_RDWR | O_CLOEXEC)) {
    struct flock lock {};
    lock.l_type = F_WRLCK;
    lock.l_whence = SEEK_SET;
    lock.l_start = 0x40000000;
    lock.l_len = 512;
    is_held_ = descriptor_ >= 0 && ::fcntl(descriptor_, F_OFD_SETLK, &lock) == 0;
  }
  ~Hold() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  Hold(const Hold&) = delete;
  Hold& operator=(const Hold&) = delete;
  bool is_held() const { return is_held_; }

 private:
  int descriptor_;
  bool is_held_ = false;
};

/// What its log holds goes into the file, so that one file is moved. One that is damaged is moved as it is,
/// with its log: a connection that only reads finds that out, since one that may write would take the log
/// away when it ends.
std::optional<Checkpoint> settle_log(const std::string& path) {
  std::optional<Checkpoint> head;
  (void)at_the_border(path, [&]() -> Result<Done> {
    head = head_of(*std::make_unique<Connection>(path, SQLite::OPEN_READONLY));
    Connection(path, SQLite::OPEN_READWRITE).each("PRAGMA wal_checkpoint(TRUNCATE)", [](const Row&) {});
    return Done{};
  });
  return head;
}

/// The file goes first: should the machine stop between the two, a log without its ledger is found, and is
/// not taken for a leftover (lone_log).
Result<Done> move_with_log(const std::string& from, const std::string& to) {
  if (!rename_if_free(from, to)) return not_moved(from, to);
  for (const char* end : {"-wal", "-shm"}) {
    if (exists(from + end) && !rename_if_free(from + end, to + end)) return not_moved(from + end, to + end);
  }
  return Done{};
}

Result<std::optional<Checkpoint>> move_aside(const std::string& path, const std::string& aside) {
  const auto head = settle_log(path);
  const Hold hold(path);
  if (!hold.is_held()) {
    return Error{"ledger_locked", "the ledger is in use, and cannot be moved aside", in_file(path),
                 "stop `serve` and whatever else has it open, then try again"};
  }
  if (auto moved = move_with_log(path, aside); !moved) return moved.errors();
  return head;
}

Result<Done> check_target(const std::string& backup, const std::string& path, const std::string& aside) {
  if (auto lone = lone_log(path)) return *lone;
  if (!exists(path)) return Done{};
  std::error_code ignored;
  if (fs::equivalent(backup, path, ignored))
    return Error{"ledger_exists", "the backup is the ledger itself", in_file(path), "name a copy of it"};
  if (aside.empty()) {
    return Error{"ledger_exists", "there is a ledger already", in_file(path),
                 "`--aside FILE` says where it is to be moved; it is never written over"};
  }
  for (const char* end : {"", "-wal", "-shm"}) {
    if (exists(aside + end))
      return Error{"file_exists", "there is a file already", in_file(aside + end), "name another one"};
  }
  return Done{};
}

Result<Done> upgrade_copy(const std::string& file, const std::string& as) {
  return at_the_border(as, [&]() -> Result<Done> {
    Connection connection(file, SQLite::OPEN_READWRITE);
    return upgrade(connection, [] { return Done{}; });  // the backup itself is what is kept
  });
}

}  // namespace

Result<Restored> restore(const std::string& backup, const std::string& path,
                         const std::optional<Checkpoint>& kept, const std::string& aside) {
  const auto version = version_of(backup);
  if (!version) return version.errors();
  if (auto target = check_target(backup, path, aside); !target) return target.errors();
  Draft draft(path);
  if (auto made = exists(path) ? draft.make() : draft.begin(); !made) return made.errors();
  if (auto copied = copy_ledger(backup, draft.path(), path); !copied) return copied.errors();
  if (auto upgraded = upgrade_copy(draft.path(), path); !upgraded) return upgraded.errors();
  auto report = inspect(draft.path(), kept);
  if (!report) return report.errors();
  if (*version < schema_version) report->older_version = *version;
  Restored restored{std::move(*report), std::nullopt};
  if (!restored.report.faults.empty()) return restored;
  const bool is_moved = exists(path);
  if (is_moved) {
    auto moved = move_aside(path, aside);
    if (!moved) return moved.errors();
    restored.before = *moved;
  }
  if (auto placed = draft.put_in_place(); !placed) {
    if (is_moved) (void)move_with_log(aside, path);
    return placed.errors();
  }
  return restored;
}

}  // namespace ledger
