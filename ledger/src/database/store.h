// The border: work inside is done in one transaction, and whatever SQLite throws becomes an Error here.

#pragma once

#include <functional>
#include <memory>
#include <string>

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
  void was_upgraded() { upgraded_ = true; }
  bool upgraded() const { return upgraded_; }

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
  bool upgraded_ = false;
};

/// Runs `work`; an exception that leaves it becomes the Error that ledger.h names for it.
engine::Result<engine::Done> at_the_border(const std::string& path,
                                           const std::function<engine::Result<engine::Done>()>& work);

}  // namespace ledger
