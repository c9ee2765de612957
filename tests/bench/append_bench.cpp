// Durable records a second, against the same bytes put into a bare SQLite table with the same transactions
// and the same durability, in the same run on the same disk.

#include <sqlite3.h>

#include <stdexcept>
#include <vector>

#include "bench/bench.h"
#include "ledger/reception.h"
#include "support/fixed_clock.h"
#include "support/records.h"
#include "support/small_protocol.h"

namespace bench {

namespace {

constexpr int records = 2000;

void run(sqlite3* database, const char* sql) {
  if (sqlite3_exec(database, sql, nullptr, nullptr, nullptr) != SQLITE_OK) throw std::runtime_error(sql);
}

// Each inner list is one transaction.
double bare_inserts(const std::string& path, const std::vector<std::vector<std::string>>& transactions) {
  sqlite3* database = nullptr;
  if (sqlite3_open(path.c_str(), &database) != SQLITE_OK) throw std::runtime_error(path);
  run(database, "PRAGMA journal_mode=WAL");
  run(database, "PRAGMA synchronous=FULL");
  run(database, "CREATE TABLE entries (sequence INTEGER PRIMARY KEY, body TEXT NOT NULL) STRICT");
  sqlite3_stmt* insert = nullptr;
  sqlite3_prepare_v2(database, "INSERT INTO entries (body) VALUES (?)", -1, &insert, nullptr);
  const double time = seconds([&] {
    for (const auto& bodies : transactions) {
      run(database, "BEGIN IMMEDIATE");
      for (const std::string& body : bodies) {
        sqlite3_bind_text(insert, 1, body.data(), static_cast<int>(body.size()), SQLITE_STATIC);
        if (sqlite3_step(insert) != SQLITE_DONE) throw std::runtime_error("insert");
        sqlite3_reset(insert);
      }
      run(database, "COMMIT");
    }
  });
  sqlite3_finalize(insert);
  sqlite3_close(database);
  return time;
}

}  // namespace

void measure_appends(const std::string& folder) {
  auto ledger = ledger::Ledger::create(folder + "/appends.ledger");
  if (!ledger) throw std::runtime_error("no ledger");
  const support::FixedClock clock("2026-03-20");
  const ledger::Protocol protocol = support::small_protocol();
  std::string lines;
  for (int i = 0; i < records; ++i) {
    const std::string number = std::to_string(10'000 + i);
    const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
    lines += support::a_record("H" + number, "E" + number, "2026-03-10", {lesion}).dump() + "\n";
  }
  std::vector<ledger::Receipt> receipts;
  const double time = seconds([&] {
    receipts = *ledger::record(*ledger, {"bench", clock}, protocol, lines, "bench.jsonl");
  });

  std::vector<std::vector<std::string>> transactions(1);
  std::size_t entries = 0;
  (void)ledger->each_entry(1, [&](const ledger::Entry& entry) {
    transactions.back().push_back(entry.body);
    ++entries;
    if (entry.kind == "advice given") transactions.emplace_back();  // the last of a record
  });
  const double bare = bare_inserts(folder + "/bare.sqlite", transactions);
  print("records into the ledger, each durable", records / time, "a second");
  print("  entries", static_cast<double>(entries) / time, "a second");
  print("  the same bytes into bare SQLite", static_cast<double>(entries) / bare, "a second");
  print("  ledger's time against bare SQLite's", time / bare, "times");
}

}  // namespace bench
