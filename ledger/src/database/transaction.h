// What the operations do inside one transaction: append entries, keep documents, look things up.
// Includes nothing of SQLite, so that the operations cannot reach past it.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "ledger/checkpoint.h"
#include "ledger/clock.h"
#include "ledger/entry.h"
#include "ledger/kind.h"

namespace ledger {

class Connection;

class Transaction {
 public:
  explicit Transaction(Connection& connection);

  /// Adds the next entry and what follows from it to the derived tables. Gives its number. Throws NotAllowed
  /// (rights_check.h) when the author's account may not write such an entry, and when it is not UTF-8.
  std::uint64_t append(const Author& author, Kind kind, const std::string& subject,
                       const nlohmann::json& body);

  /// Adds an entry that was written elsewhere, as it is: its hash is the caller's affair, the trigger checks
  /// number and link.
  void adopt(const Entry& entry, Kind kind, const nlohmann::json& body);

  /// The number that the next entry gets: people and recalls are numbered by the entry that makes them.
  std::uint64_t next() const { return head_.size + 1; }
  const Checkpoint& head() const { return head_; }

  /// Keeps `bytes` and gives their digest. The same bytes are kept once.
  std::string keep(std::string_view bytes);
  bool keeps(const std::string& digest);
  std::optional<std::string> document(const std::string& digest);

  std::optional<Entry> entry(std::uint64_t sequence);
  /// The body of an entry that is known to be there.
  nlohmann::json body(std::uint64_t sequence);

  Connection& connection() { return connection_; }

 private:
  Connection& connection_;
  Checkpoint head_;
};

}  // namespace ledger
