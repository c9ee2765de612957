// SQLite by itself, which the ledger's work is compared with.

#pragma once

#include <sqlite3.h>

#include <memory>
#include <stdexcept>
#include <string>

namespace bench {

struct Finalize {
  void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Statement = std::unique_ptr<sqlite3_stmt, Finalize>;

class BareSqlite {
 public:
  explicit BareSqlite(const std::string& path) {
    if (sqlite3_open(path.c_str(), &database_) != SQLITE_OK) throw std::runtime_error(path);
    run("PRAGMA cache_size = -32000");
  }
  ~BareSqlite() { sqlite3_close_v2(database_); }
  BareSqlite(const BareSqlite&) = delete;
  BareSqlite& operator=(const BareSqlite&) = delete;

  void run(const char* sql) {
    if (sqlite3_exec(database_, sql, nullptr, nullptr, nullptr) != SQLITE_OK) fail();
  }
  Statement prepare(const char* sql) {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(database_, sql, -1, &statement, nullptr) != SQLITE_OK) fail();
    return Statement(statement);
  }

 private:
  [[noreturn]] void fail() { throw std::runtime_error(sqlite3_errmsg(database_)); }

  sqlite3* database_ = nullptr;
};

}  // namespace bench
