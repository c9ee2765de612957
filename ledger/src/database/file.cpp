#include "database/file.h"

#include <filesystem>
#include <optional>
#include <utility>

#include "database/connection.h"
#include "database/copy.h"
#include "database/upgrade.h"
#include "ledger/new_file.h"
#include "places.h"
#include "schema.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;

namespace {

std::int64_t pragma(Connection& connection, const char* sql) {
  return connection.first(sql, [](const Row& row) { return row.number(0); }).value_or(0);
}

/// Settings that SQLite keeps per connection. FULL: a commit is on the disk before it is answered. Up to 32
/// MB of pages are kept in memory, and the write-ahead log, which has the commits already, is carried over
/// into the file after 4000 pages (16 MB): a page that many commits write is carried over once.
void settle(Connection& connection) {
  connection.execute("PRAGMA foreign_keys = ON");
  connection.execute("PRAGMA synchronous = FULL");
  connection.execute("PRAGMA cache_size = -32000");
  connection.execute("PRAGMA wal_autocheckpoint = 4000");
}

/// A database without anything in it.
bool is_bare(Connection& connection) {
  return pragma(connection, "PRAGMA application_id") == 0 && pragma(connection, "PRAGMA user_version") == 0 &&
         pragma(connection, "SELECT count(*) FROM sqlite_schema") == 0;
}

/// The version of the tables of what is a ledger.
Result<std::int64_t> recognise(Connection& connection, const std::string& path) {
  if (pragma(connection, "PRAGMA application_id") != application_id) {
    return Error{"not_a_ledger", "the file is not a ledger", in_file(path),
                 "name a file that was made by this program"};
  }
  const std::int64_t version = pragma(connection, "PRAGMA user_version");
  if (version > schema_version) {
    return Error{"newer_ledger",
                 "the ledger has tables of version " + std::to_string(version) +
                     "; this program knows up to " + std::to_string(schema_version),
                 in_file(path), "use the version of the program that wrote it, or a later one"};
  }
  return version;
}

/// Tables of an earlier version cannot be read: they are made anew first, also for a reader. Gives the name
/// of the copy that was kept.
Result<std::string> bring_up_to_date(const std::string& path, std::int64_t version) {
  std::string kept;
  auto done = at_the_border(path, [&]() -> Result<Done> {
    Connection connection(path, SQLite::OPEN_READWRITE);
    settle(connection);
    return upgrade(connection, [&]() -> Result<Done> {
      const auto copy = keep_beside(path, version);
      if (!copy) return copy.errors();
      kept = *copy;
      return Done{};
    });
  });
  if (done) return kept;
  return Error{"older_ledger",
               "the tables of the ledger are of an earlier version and cannot be made anew: " +
                   done.errors().front().message,
               in_file(path),
               "open it once where it and its folder can be written to; its entries stay as they are"};
}

/// What a machine that stopped left half changed is taken back when the file is next read, but not by a
/// connection that only reads. Source: SQLite, "Atomic Commit In SQLite", 4 (Rollback); result code
/// SQLITE_READONLY_ROLLBACK.
void take_back_unfinished(const std::string& path) {
  std::error_code ignored;
  if (!std::filesystem::exists(path + "-journal", ignored)) return;
  Connection(path, SQLite::OPEN_READWRITE).each("SELECT 1 FROM sqlite_schema", [](const Row&) {});
}

}  // namespace

// SQLite takes a write-ahead log beside an empty file for a leftover and deletes it: with it, what was last
// written would be gone.
std::optional<Error> lone_log(const std::string& path) {
  std::error_code fault;
  if (const auto size = std::filesystem::file_size(path, fault); !fault && size > 0) return std::nullopt;
  const auto log = std::filesystem::file_size(path + "-wal", fault);
  if (fault || log == 0) return std::nullopt;
  return Error{
      "ledger_missing",
      "the ledger is not there, or is empty, but its write-ahead log `" + path +
          "-wal` is, and holds what was last written",
      in_file(path),
      "put the ledger back beside its log; if there is none to put back, move the log away and restore "
      "a backup"};
}

Result<std::int64_t> version_of(const std::string& path) {
  std::int64_t version = 0;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    Connection connection(path, SQLite::OPEN_READONLY);
    const auto recognised = recognise(connection, path);
    if (!recognised) return recognised.errors();
    version = *recognised;
    return Done{};
  });
  if (!done) return done.errors();
  return version;
}

void make_tables(Connection& connection) {
  connection.execute("BEGIN EXCLUSIVE");
  if (!is_bare(connection)) {  // another process was quicker
    connection.execute("ROLLBACK");
    return;
  }
  connection.execute("PRAGMA application_id = " + std::to_string(application_id));
  connection.execute("PRAGMA user_version = " + std::to_string(schema_version));
  connection.execute(kept_schema);
  connection.execute(derived_schema);
  connection.execute("COMMIT");
}

bool is_to_be_made(const std::string& path) {
  std::error_code fault;
  const auto size = std::filesystem::file_size(path, fault);
  if (fault || size == 0) return true;
  bool bare = false;
  (void)at_the_border(path, [&]() -> Result<Done> {
    Connection connection(path, SQLite::OPEN_READWRITE);
    bare = is_bare(connection);
    return Done{};
  });
  return bare;
}

Result<std::unique_ptr<Store>> create_file(const std::string& path) {
  if (!is_to_be_made(path)) {
    return Error{"ledger_exists", "there is a file already", in_file(path),
                 "name another file, or open this one"};
  }
  if (auto lone = lone_log(path)) return *lone;
  (void)make_private(path);  // what cannot be made, SQLite says better
  std::unique_ptr<Connection> connection;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    connection = std::make_unique<Connection>(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    settle(*connection);
    // Before there is a log: a copy of the file without it must not pass for an empty one.
    make_tables(*connection);
    connection->execute("PRAGMA journal_mode = WAL");
    return Done{};
  });
  if (!done) return done.errors();
  return std::make_unique<Store>(path, std::move(connection));
}

Result<std::unique_ptr<Store>> open_file(const std::string& path, Ledger::Access access) {
  std::unique_ptr<Connection> connection;
  std::string kept;  // before the tables were made anew
  if (auto lone = lone_log(path)) return *lone;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    const bool reads = access == Ledger::Access::read;
    if (reads) take_back_unfinished(path);
    connection = std::make_unique<Connection>(path, reads ? SQLite::OPEN_READONLY : SQLite::OPEN_READWRITE);
    settle(*connection);
    const auto recognised = recognise(*connection, path);
    if (!recognised) return recognised.errors();
    if (*recognised < schema_version) {
      const auto brought = bring_up_to_date(path, *recognised);
      if (!brought) return brought.errors();
      kept = *brought;
    }
    // A copy that was put in the place of a ledger has no write-ahead log yet.
    if (!reads) connection->execute("PRAGMA journal_mode = WAL");
    return Done{};
  });
  if (!done) return done.errors();
  auto store = std::make_unique<Store>(path, std::move(connection));
  store->was_upgraded(std::move(kept));
  return store;
}

}  // namespace ledger
