// One connection to SQLite, with its prepared statements. Throws SQLite::Exception; the border that turns it
// into an Error is Store (store.h).

#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "engine/canonical.h"

namespace ledger {

/// One row of an answer. Valid until the next row is read.
class Row {
 public:
  explicit Row(SQLite::Statement& statement) : statement_(statement) {}
  std::string text(int column) const { return statement_.getColumn(column).getString(); }
  /// The bytes of a text where they stand.
  std::string_view view(int column) const {
    const SQLite::Column value = statement_.getColumn(column);
    const auto* bytes = static_cast<const char*>(value.getBlob());
    return {bytes, static_cast<std::size_t>(value.getBytes())};
  }
  std::int64_t number(int column) const { return statement_.getColumn(column).getInt64(); }
  std::uint64_t count(int column) const { return static_cast<std::uint64_t>(number(column)); }
  bool is_number(int column) const { return statement_.getColumn(column).isInteger(); }
  bool is_null(int column) const { return statement_.getColumn(column).isNull(); }
  engine::Digest digest(int column) const;
  int columns() const { return statement_.getColumnCount(); }

 private:
  SQLite::Statement& statement_;
};

/// The rows of an answer, gone through beside another's. Ends with the connection at the latest.
class Rows {
 public:
  Rows(SQLite::Database& database, const std::string& sql)
      : statement_(std::make_unique<SQLite::Statement>(database, sql)) {
    next();
  }
  bool here() const { return here_; }
  Row row() const { return Row(*statement_); }
  void next() { here_ = statement_->executeStep(); }

 private:
  std::unique_ptr<SQLite::Statement> statement_;
  bool here_ = false;
};

/// Bytes to be stored as a blob rather than as text.
struct Blob {
  std::string_view bytes;
};

class Connection {
 public:
  Connection(const std::string& path, int flags);

  /// Runs statements that are used once: pragmas, the schema, begin and commit.
  void execute(const std::string& sql) { database_.exec(sql); }

  /// Between begin and commit or rollback.
  bool in_transaction() const;

  /// Runs a statement that gives no rows. `sql` is a literal: it is prepared once and kept.
  template <class... Values>
  void run(const char* sql, const Values&... values) {
    Use use(bound(sql, values...));
    use.statement.exec();
  }

  /// Calls `visit(Row)` for every row. `visit` must not run the same statement.
  template <class Visit, class... Values>
  void each(const char* sql, Visit visit, const Values&... values) {
    Use use(bound(sql, values...));
    while (use.statement.executeStep()) visit(Row(use.statement));
  }

  /// The same for a statement made up at run time, which is not kept.
  template <class Visit>
  void each_once(const std::string& sql, Visit visit) {
    SQLite::Statement statement(database_, sql);
    while (statement.executeStep()) visit(Row(statement));
  }

  Rows rows(const std::string& sql) { return {database_, sql}; }

  /// What `read` makes of the first row, or nothing when there is none.
  template <class Read, class... Values>
  auto first(const char* sql, Read read, const Values&... values)
      -> std::optional<decltype(read(std::declval<Row>()))> {
    Use use(bound(sql, values...));
    if (!use.statement.executeStep()) return std::nullopt;
    return read(Row(use.statement));
  }

 private:
  /// Gives a statement back to the pool also when an exception passes.
  struct Use {
    explicit Use(SQLite::Statement& used) : statement(used) {}
    ~Use() { statement.tryReset(); }
    Use(const Use&) = delete;
    Use& operator=(const Use&) = delete;
    SQLite::Statement& statement;
  };

  SQLite::Statement& prepared(const char* sql);

  template <class... Values>
  SQLite::Statement& bound(const char* sql, const Values&... values) {
    SQLite::Statement& statement = prepared(sql);
    int index = 0;
    (bind(statement, ++index, values), ...);
    return statement;
  }

  static void bind(SQLite::Statement& s, int index, const std::string& text) { s.bind(index, text); }
  static void bind(SQLite::Statement& s, int index, const char* text) { s.bind(index, text); }
  static void bind(SQLite::Statement& s, int index, std::string_view text) {
    s.bind(index, std::string(text));
  }
  static void bind(SQLite::Statement& s, int index, std::int64_t number) { s.bind(index, number); }
  static void bind(SQLite::Statement& s, int index, std::uint64_t number) {
    s.bind(index, static_cast<std::int64_t>(number));
  }
  static void bind(SQLite::Statement& s, int index, int number) { s.bind(index, number); }
  static void bind(SQLite::Statement& s, int index, const Blob& blob);
  static void bind(SQLite::Statement& s, int index, const engine::Digest& digest) {
    s.bind(index, digest.data(), static_cast<int>(digest.size()));
  }
  static void bind(SQLite::Statement& s, int index, const std::optional<std::uint64_t>& number) {
    number ? bind(s, index, *number) : s.bind(index);
  }

  SQLite::Database database_;
  std::unordered_map<std::string_view, std::unique_ptr<SQLite::Statement>> statements_;
};

}  // namespace ledger
