// Reaches past the ledger to its file, as one who falsifies it would.

#pragma once

#include <sqlite3.h>

#include <stdexcept>
#include <string>

namespace support {

/// Runs `sql` on the file. Throws with SQLite's words when it is refused.
inline void run_sql(const std::string& path, const std::string& sql) {
  sqlite3* database = nullptr;
  char* words = nullptr;
  sqlite3_open(path.c_str(), &database);
  const int code = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, &words);
  const std::string fault = words == nullptr ? "" : words;
  sqlite3_free(words);
  sqlite3_close(database);
  if (code != SQLITE_OK) throw std::runtime_error(fault);
}

/// The first column of the first row, as text; empty when there is none.
inline std::string ask_sql(const std::string& path, const std::string& sql) {
  sqlite3* database = nullptr;
  sqlite3_stmt* statement = nullptr;
  std::string answer;
  sqlite3_open(path.c_str(), &database);
  sqlite3_prepare_v2(database, sql.c_str(), -1, &statement, nullptr);
  if (sqlite3_step(statement) == SQLITE_ROW) {
    const void* bytes = sqlite3_column_blob(statement, 0);
    if (bytes != nullptr) {
      answer.assign(static_cast<const char*>(bytes),
                    static_cast<std::size_t>(sqlite3_column_bytes(statement, 0)));
    }
  }
  sqlite3_finalize(statement);
  sqlite3_close(database);
  return answer;
}

}  // namespace support
