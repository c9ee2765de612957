// The border: work inside is done in one transaction, and whatever SQLite throws becomes an Error here.

#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "engine/result.h"
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

  /// Runs `work` on the ledger as of one moment; it cannot write.
  engine::Result<engine::Done> read(const std::function<engine::Result<engine::Done>(Transaction&)>& work);

 private:
  engine::Result<engine::Done> within(const char* begin,
                                      const std::function<engine::Result<engine::Done>(Transaction&)>& work);

  std::string path_;
  std::unique_ptr<Connection> connection_;
  std::string kept_before_upgrade_;
};

/// Runs `work`; an exception that leaves it becomes the Error that ledger.h names for it.
engine::Result<engine::Done> at_the_border(const std::string& path,
                                           const std::function<engine::Result<engine::Done>()>& work);

}  // namespace ledger
