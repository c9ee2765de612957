#include "database/connection.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>

namespace ledger {

namespace {

constexpr int patience_ms = 10'000;

}  // namespace

engine::Digest Row::digest(int column) const {
  const SQLite::Column value = statement_.getColumn(column);
  engine::Digest digest{};
  const auto size = std::min<std::size_t>(digest.size(), static_cast<std::size_t>(value.getBytes()));
  if (size > 0) std::memcpy(digest.data(), value.getBlob(), size);
  return digest;
}

// A connection is used by one thread at a time: SQLite need not lock it for every column that is read.
Connection::Connection(const std::string& path, int flags)
    : database_(path, flags | SQLite::OPEN_NOMUTEX, patience_ms) {}

bool Connection::in_transaction() const {
  return sqlite3_get_autocommit(database_.getHandle()) == 0;
}

SQLite::Statement& Connection::prepared(const char* sql) {
  const auto found = statements_.find(sql);
  if (found != statements_.end()) return *found->second;
  auto statement = std::make_unique<SQLite::Statement>(database_, sql);
  return *statements_.emplace(sql, std::move(statement)).first->second;
}

void Connection::bind(SQLite::Statement& s, int index, const Blob& blob) {
  // A null pointer would bind NULL instead of no bytes.
  s.bind(index, blob.bytes.empty() ? "" : blob.bytes.data(), static_cast<int>(blob.bytes.size()));
}

}  // namespace ledger
