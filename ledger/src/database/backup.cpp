#include "ledger/backup.h"

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>

#include "database/connection.h"
#include "database/store.h"
#include "database/transaction.h"
#include "engine/canonical.h"
#include "ledger/audit.h"
#include "places.h"

namespace ledger {

namespace fs = std::filesystem;
using engine::Done;
using engine::Error;
using engine::Result;

namespace {

Error not_written(const std::string& file, const std::string& why) {
  return {"backup_not_written", "the copy cannot be written: " + why, in_file(file),
          "check the folder, its rights and the room on the disk"};
}

/// What SQLite wrote for VACUUM INTO, and the name of it, must outlast a power failure.
bool flush(const fs::path& path, int flags) {
  const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
  if (descriptor < 0) return false;
  const bool flushed = ::fsync(descriptor) == 0;
  return ::close(descriptor) == 0 && flushed;
}

/// SQLite's name for a copy that is consistent, whoever writes meanwhile. Source: SQLite, "VACUUM", INTO.
Result<Done> copy(const std::string& from, const std::string& to) {
  const auto copied = at_the_border(from, [&]() -> Result<Done> {
    Connection(from, SQLite::OPEN_READONLY).run("VACUUM INTO ?", to);
    return Done{};
  });
  if (!copied) return not_written(to, copied.errors().front().message);
  if (!flush(to, O_RDWR)) return not_written(to, "it cannot be flushed to the disk");
  return Done{};
}

Result<Checkpoint> checked(const std::string& file, const std::string& as) {
  const auto report = verify(file, std::nullopt);
  if (!report) return report.errors();
  if (report->faults.empty()) return report->checkpoint;
  const AuditFault& first = report->faults.front();
  return Error{
      "backup_not_sound",
      "the copy is not sound: " + first.where + ", entry " + std::to_string(first.entry) + ": " + first.what,
      in_file(as), "`audit verify` says whether the ledger itself is"};
}

Result<Done> put_in_place(const fs::path& part, const fs::path& file) {
  std::error_code fault;
  fs::rename(part, file, fault);
  if (fault) return not_written(file.string(), fault.message());
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  if (!flush(folder, O_RDONLY | O_DIRECTORY))
    return not_written(file.string(), "its folder cannot be flushed");
  return Done{};
}

}  // namespace

Result<Checkpoint> back_up(Ledger& ledger, const Author& author, const std::string& file) {
  std::error_code ignored;
  if (fs::exists(file, ignored))
    return Error{"backup_exists", "there is a file already", in_file(file), "name another one"};
  const std::string part = file + ".part";
  fs::remove(part, ignored);  // of a backup that was interrupted
  if (auto copied = copy(ledger.path(), part); !copied) {
    fs::remove(part, ignored);
    return copied.errors();
  }
  const auto checkpoint = checked(part, file);
  if (!checkpoint) {
    fs::remove(part, ignored);
    return checkpoint.errors();
  }
  if (auto placed = put_in_place(part, file); !placed) {
    fs::remove(part, ignored);
    return placed.errors();
  }
  const auto noted = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    transaction.append(author, Kind::backup, "ledger",
                       {{"file", fs::path(file).filename().string()},
                        {"size", checkpoint->size},
                        {"head", "sha256:" + engine::hexadecimal(checkpoint->head)}});
    return Done{};
  });
  if (!noted) return noted.errors();
  return checkpoint;
}

}  // namespace ledger
