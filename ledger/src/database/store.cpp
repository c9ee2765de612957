#include "database/store.h"

#include <sqlite3.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

#include "database/connection.h"
#include "database/rights_check.h"
#include "database/transaction.h"
#include "places.h"

namespace ledger {

namespace {

struct Meaning {
  int sqlite;
  std::string_view code, message, help;
};

constexpr Meaning meanings[] = {
    {SQLITE_BUSY, "ledger_locked", "the ledger is in use by another program and was not free in time",
     "try again; a backup or an import may be running"},
    {SQLITE_PROTOCOL, "ledger_locked", "the ledger is in use by another program and was not free in time",
     "try again; a backup or an import may be running"},
    {SQLITE_LOCKED, "ledger_locked", "the ledger is in use by another program and was not free in time",
     "try again; a backup or an import may be running"},
    {SQLITE_READONLY_ROLLBACK, "ledger_read_only",
     "a change of the ledger was cut off half-way, and must be taken back before it can be read",
     "open it once where it, its `-journal` and its folder can be written to"},
    {SQLITE_READONLY, "ledger_read_only", "the ledger cannot be written to",
     "check who owns the file and its folder, and whether the disk is mounted read-only"},
    {SQLITE_PERM, "ledger_read_only", "the ledger may not be opened by this user",
     "check who owns the file and its folder"},
    {SQLITE_FULL, "disk_full", "the disk is full; nothing was written", "free some space and try again"},
    {SQLITE_IOERR, "ledger_fault", "the disk gave a fault while the ledger was read or written",
     "look whether the change is there, and if not, try again; look after the disk; `audit verify` checks "
     "the "
     "ledger"},
    {SQLITE_CORRUPT, "ledger_damaged", "the file is damaged",
     "restore the last backup; keep this file for the auditor"},
    {SQLITE_NOTADB, "not_a_ledger", "the file is not a ledger", "name a file that was made by this program"},
    {SQLITE_CANTOPEN, "ledger_missing",
     "the ledger cannot be opened: there is no such file, or it may not be read",
     "check the path; the folder must exist"},
};

constexpr std::string_view what_else =
    "try again; `audit verify` checks the ledger, and `restore` puts the last backup in its place";

/// SQLite says the same of a file that is not there and of one whose log cannot be made beside it.
bool is_there(const std::string& path) {
  std::error_code ignored;
  return std::filesystem::exists(path, ignored);
}

/// `sqlite` is the extended code. What has no meaning of its own has that of its kind, the lowest byte.
const Meaning* meaning_of(int sqlite) {
  for (const int code : {sqlite, sqlite & 0xff}) {
    const auto found = std::ranges::find(meanings, code, &Meaning::sqlite);
    if (found != std::end(meanings)) return found;
  }
  return nullptr;
}

/// SQLiteCpp knows the extended code of what SQLite itself said, not of what it found out for itself.
int code_of(const SQLite::Exception& fault) {
  return fault.getExtendedErrorCode() > 0 ? fault.getExtendedErrorCode() : fault.getErrorCode();
}

engine::Error error_for(int sqlite, const char* words, const std::string& path) {
  if ((sqlite & 0xff) == SQLITE_CANTOPEN && is_there(path)) {
    return {
        "ledger_read_only", "the ledger may not be opened, or its folder may not be written to",
        in_file(path),
        "check who owns the file and its folder: its log lies beside it; a copy that `backup` made can be "
        "read anywhere"};
  }
  if (const Meaning* meaning = meaning_of(sqlite)) {
    return {std::string(meaning->code), std::string(meaning->message), in_file(path),
            std::string(meaning->help)};
  }
  return {"ledger_fault", std::string("the ledger gave a fault: ") + words, in_file(path),
          std::string(what_else)};
}

}  // namespace

engine::Result<engine::Done> at_the_border(const std::string& path,
                                           const std::function<engine::Result<engine::Done>()>& work) {
  try {
    return work();
  } catch (const NotAllowed& refused) {
    return refused.error;
  } catch (const SQLite::Exception& fault) {
    return error_for(code_of(fault), fault.what(), path);
  } catch (const std::exception& fault) {
    return engine::Error{"ledger_fault", std::string("the ledger could not be worked with: ") + fault.what(),
                         in_file(path), std::string(what_else)};
  }
}

Store::Store(std::string path, std::unique_ptr<Connection> connection)
    : path_(std::move(path)), connection_(std::move(connection)) {}

Store::~Store() = default;

engine::Result<engine::Done> Store::write(
    const std::function<engine::Result<engine::Done>(Transaction&)>& work) {
  return within("BEGIN IMMEDIATE", work);
}

namespace {

/// How many inputs share a transaction, and for how long: others who write wait for its end.
constexpr std::size_t inputs_together = 100;
constexpr std::int64_t milliseconds_together = 200;

}  // namespace

engine::Result<engine::Done> Store::write_each(
    std::size_t count, const Clock& clock,
    const std::function<engine::Result<engine::Done>(Transaction&, std::size_t)>& work) {
  for (std::size_t first = 0, next = 0; first < count; first = next) {
    const std::size_t end = std::min(count, first + inputs_together);
    const std::int64_t until = clock.now().milliseconds + milliseconds_together;
    const auto done = write([&](Transaction& transaction) -> engine::Result<engine::Done> {
      do {
        if (auto one = work(transaction, next++); !one) return one;
      } while (next < end && clock.now().milliseconds < until);
      return engine::Done{};
    });
    if (done) continue;
    if (next <= first + 1) return done;  // it did not begin, or was alone
    // One of them failed, or the commit did: what can be kept is kept, one by one.
    for (std::size_t i = first; i < next; ++i) {
      if (auto alone = write([&](Transaction& transaction) { return work(transaction, i); }); !alone)
        return alone;
    }
  }
  return engine::Done{};
}

engine::Result<engine::Done> Store::read(
    const std::function<engine::Result<engine::Done>(Transaction&)>& work) {
  if (held_ == 0) return within("BEGIN", work);
  return at_the_border(path_, [&] {
    Transaction transaction(*connection_);
    return work(transaction);
  });
}

engine::Result<engine::Done> Store::hold() {
  if (held_ == 0) {
    auto begun = at_the_border(path_, [&]() -> engine::Result<engine::Done> {
      connection_->run("BEGIN");
      Transaction fixes_the_moment(*connection_);  // by the first thing that is read
      return engine::Done{};
    });
    if (!begun) {
      end_transaction();
      return begun;
    }
  }
  ++held_;
  return engine::Done{};
}

void Store::release() {
  if (--held_ == 0) end_transaction();
}

/// Takes back what is not committed.
void Store::end_transaction() {
  if (!connection_->in_transaction()) return;
  (void)at_the_border(path_, [&]() -> engine::Result<engine::Done> {
    connection_->run("ROLLBACK");
    return engine::Done{};
  });
}

engine::Result<engine::Done> Store::within(
    const char* begin, const std::function<engine::Result<engine::Done>(Transaction&)>& work) {
  auto done = at_the_border(path_, [&]() -> engine::Result<engine::Done> {
    connection_->run(begin);
    Transaction transaction(*connection_);
    auto result = work(transaction);
    if (result) connection_->run("COMMIT");
    return result;
  });
  // A rollback that fails leaves nothing behind either: SQLite takes the work back when the file is next
  // opened. What counts is the first fault.
  if (!done) end_transaction();
  return done;
}

}  // namespace ledger
