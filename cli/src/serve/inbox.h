// The inbox folder: files dropped there go into the ledger, each claimed first, then filed under done or
// failed.
//
//   inbox/            where others put files, by renaming them into place; names with a dot in front, `.part`
//   and
//                     `.tmp` are still being written
//   inbox/claimed/    being worked on; what lies there at the start was interrupted, and is worked on again
//   inbox/done/       in the ledger
//   inbox/failed/     refused as a whole or in part, with NAME.error.txt beside it
//
// A crash at any point loses nothing and enters nothing twice: the file stays in one of the folders, and the
// ledger knows what it holds.

#pragma once

#include <filesystem>

#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace cli {

class Inbox {
 public:
  /// Makes the folders.
  static engine::Result<Inbox> open(const std::filesystem::path& folder);

  /// Works through what was interrupted, then through what is new, in the order of the names. Stops early
  /// when a stop is requested (system/signals.h). Fails with a fault of the ledger or the folders; the file
  /// in hand then stays claimed.
  engine::Result<engine::Done> work(ledger::Ledger& ledger, const ledger::Author& author,
                                    const ledger::Protocol& protocol);

 private:
  explicit Inbox(const std::filesystem::path& folder);
  engine::Result<engine::Done> enter(const std::filesystem::path& claimed_file, ledger::Ledger& ledger,
                                     const ledger::Author& author, const ledger::Protocol& protocol);
  engine::Result<engine::Done> file_under_failed(const std::filesystem::path& claimed_file,
                                                 const engine::Errors& errors);

  std::filesystem::path folder_, claimed_, done_, failed_;
};

}  // namespace cli
