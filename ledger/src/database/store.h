// The border: work inside is done in one transaction, and whatever SQLite throws becomes an Error here.

#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

class Connection;
class Transaction;

class Store {
 public:
  Store(std::string path, std::unique_ptr<Connection> connection);
  ~Store();

  const std::string& path() const { return path_; }
  void was_upgraded(std::string kept) { kept_before_upgrade_ = std::move(kept); }
  /// See ledger.h.
  const std::string& kept_before_upgrade() const { return kept_before_upgrade_; }

  /// Runs `work` as the only writer. Commits when it gives Done; takes everything back when it gives errors
  /// or throws.
  engine::Result<engine::Done> write(const std::function<engine::Result<engine::Done>(Transaction&)>& work);

  /// Runs `work` for 0, 1, ... `count` - 1, as the only writer, several of them in one transaction: for
  /// inputs of which none is answered before all are done, so that each need not wait for the disk by itself.
  /// The first that gives errors or throws ends it: what it did is taken back, those before it are kept.
  /// `work` may be run a second time for the same number, after all that it did was taken back.
  engine::Result<engine::Done> write_each(
      std::size_t count, const Clock& clock,
      const std::function<engine::Result<engine::Done>(Transaction&, std::size_t)>& work);

  /// Holds the ledger as of now for all that is read, until release() was called as often as hold().
  engine::Result<engine::Done> hold();
  void release();

  /// Runs `work` on the ledger as of one moment, the one that is held if one is; it cannot write.
  engine::Result<engine::Done> read(const std::function<engine::Result<engine::Done>(Transaction&)>& work);

 private:
  engine::Result<engine::Done> within(const char* begin,
                                      const std::function<engine::Result<engine::Done>(Transaction&)>& work);

  void end_transaction();

  std::string path_;
  std::unique_ptr<Connection> connection_;
  std::string kept_before_upgrade_;
  int held_ = 0;
};

/// Runs `work`; an exception that leaves it becomes the Error that ledger.h names for it.
engine::Result<engine::Done> at_the_border(const std::string& path,
                                           const std::function<engine::Result<engine::Done>()>& work);

}  // namespace ledger
