// The only door to the database file: open or create it, read entries. What is written to it, the operations
// write (reception.h, signing.h, recalls.h): each in one transaction, entries and derived tables together.
// Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "engine/result.h"
#include "ledger/checkpoint.h"
#include "ledger/entry.h"

namespace ledger {

class Store;

/// As long as it lives, all that is read through its ledger is of one moment, whatever others write. Nothing
/// is written through that ledger meanwhile. One within another is of the moment of the outer one. The ledger
/// must outlive it.
class Moment {
 public:
  explicit Moment(Store& store) : store_(&store) {}
  ~Moment();
  Moment(Moment&& other) noexcept : store_(std::exchange(other.store_, nullptr)) {}
  Moment& operator=(Moment&&) = delete;

 private:
  Store* store_;
};

/// One connection. Several processes and threads may hold the same file open, each with a Ledger of its own;
/// a Ledger is used by one thread at a time. Nothing here throws.
///
/// Every operation fails with one of: `ledger_missing` (no such file or folder, or only its log),
/// `not_a_ledger`, `newer_ledger` (written by a later version), `older_ledger` (its tables could not be made
/// anew), `ledger_read_only`, `ledger_locked` (another process kept it for 10 seconds), `disk_full`,
/// `ledger_damaged`, `ledger_fault` (anything else, in SQLite's words). The place's source is the file. What
/// writes fails with `not_utf8` when a name or reason is no text, and with `unknown_account`, `not_allowed`,
/// `not_your_name` or `not_your_account` when the ledger names accounts and the author's may not do it
/// (accounts.h).
class Ledger {
 public:
  enum class Access : std::uint8_t { read, write };

  /// Makes a new, empty ledger. Fails with `ledger_exists` when there is a file already.
  static engine::Result<Ledger> create(const std::string& path);
  static engine::Result<Ledger> open(const std::string& path, Access access);
  /// `open` for writing, or `create` when there is no file.
  static engine::Result<Ledger> open_or_create(const std::string& path);

  Ledger(Ledger&&) noexcept;
  Ledger& operator=(Ledger&&) noexcept;
  ~Ledger();

  const std::string& path() const;

  /// Opening it found derived tables of an earlier version of the program, and made them anew from the
  /// entries: the copy that was kept beside it before, `FILE.version-1.backup`. Else empty. To be told to
  /// whoever opened it.
  const std::string& kept_before_upgrade() const;

  /// From now on until it is gone.
  engine::Result<Moment> moment() const;

  /// Size and head as they stand now.
  engine::Result<Checkpoint> checkpoint() const;

  /// Calls `visit` with each entry from number `from` on, in order, as of one moment.
  engine::Result<engine::Done> each_entry(std::uint64_t from,
                                          const std::function<void(const Entry&)>& visit) const;

  /// The bytes kept under `digest` (`sha256:...`): an input as it came, or a ruleset.dmn. Fails with
  /// `unknown_document`.
  engine::Result<std::string> document(const std::string& digest) const;

  /// For the operations of this module: `Store` is declared in the module's own sources.
  Store& store() const { return *store_; }

 private:
  explicit Ledger(std::unique_ptr<Store> store);
  std::unique_ptr<Store> store_;
};

}  // namespace ledger
