// Durable appends a second, beside the same bytes put into bare SQLite tables with the same transactions and
// the same durability (WAL, synchronous=FULL), in the same run on the same disk: a signature, which is looked
// up, chained and derived from; and whole records, which are also read, matched to a person and answered by a
// ruleset, each by itself and many in a file.
//
// The bytes are those that the ledger keeps: its entries and documents, all their columns. The bare tables
// have no index, trigger or constraint beside the number of the row, and nothing is derived.

#include <stdexcept>
#include <vector>

#include "bench/bare_sqlite.h"
#include "bench/bench.h"
#include "bench/flushing.h"
#include "ledger/audit.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "support/fixed_clock.h"
#include "support/records.h"
#include "support/small_protocol.h"

namespace bench {

namespace {

constexpr int records = 2000;

/// What the ledger kept for one record: columns of text and bytes, row by row.
struct KeptRecord {
  std::vector<std::vector<std::string>> entries;
  std::vector<std::string> document;
};

void bind(sqlite3_stmt* statement, const std::vector<std::string>& columns) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    sqlite3_bind_blob(statement, static_cast<int>(i + 1), columns[i].data(),
                      static_cast<int>(columns[i].size()), SQLITE_STATIC);
  }
}

class BareTables {
 public:
  explicit BareTables(const std::string& path) : database_(path) {
    database_.run("PRAGMA journal_mode = WAL");
    database_.run("PRAGMA synchronous = FULL");
    database_.run(
        "CREATE TABLE entries (sequence INTEGER PRIMARY KEY, at, actor, kind, subject, body, previous, "
        "hash)");
    database_.run("CREATE TABLE documents (digest, bytes)");
  }

  void insert(const KeptRecord& record) {
    for (const auto& entry : record.entries)
      insert(
          "INSERT INTO entries (at, actor, kind, subject, body, previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?)",
          entry, entries_);
    if (!record.document.empty())
      insert("INSERT INTO documents (digest, bytes) VALUES (?, ?)", record.document, documents_);
  }
  void run(const char* sql) { database_.run(sql); }

 private:
  void insert(const char* sql, const std::vector<std::string>& columns, Statement& statement) {
    if (!statement) statement = database_.prepare(sql);
    bind(statement.get(), columns);
    if (sqlite3_step(statement.get()) != SQLITE_DONE) throw std::runtime_error(sql);
    sqlite3_reset(statement.get());
  }

  BareSqlite database_;
  Statement entries_, documents_;
};

std::string bytes_of(const engine::Digest& digest) {
  return {digest.begin(), digest.end()};
}

std::vector<std::string> columns_of(const ledger::Entry& entry) {
  return {entry.at,
          entry.actor,
          entry.kind,
          entry.subject,
          entry.body,
          bytes_of(entry.previous),
          bytes_of(entry.hash)};
}

/// From entry `first` on, one for each entry of `kind` and those that follow it.
std::vector<KeptRecord> kept_from(const ledger::Ledger& ledger, std::uint64_t first, const char* kind) {
  std::vector<KeptRecord> kept;
  (void)ledger.each_entry(first, [&](const ledger::Entry& entry) {
    if (entry.kind == kind) kept.emplace_back();
    kept.back().entries.push_back(columns_of(entry));
  });
  return kept;
}

std::vector<KeptRecord> kept_by(const ledger::Ledger& ledger) {
  std::vector<KeptRecord> kept(1);
  (void)ledger.each_entry(1, [&](const ledger::Entry& entry) {
    kept.back().entries.push_back(columns_of(entry));
    if (entry.kind == "examination recorded") {
      const std::string digest = nlohmann::json::parse(entry.body).at("document");
      kept.back().document = {digest, digest};
    }
    if (entry.kind == "advice given") kept.emplace_back();  // the last of a record
  });
  kept.pop_back();
  for (KeptRecord& record : kept) record.document[1] = *ledger.document(record.document[1]);
  return kept;
}

std::vector<std::string> lines() {
  std::vector<std::string> lines;
  for (int i = 0; i < records; ++i) {
    const std::string number = std::to_string(10'000 + i);
    const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
    lines.push_back(support::a_record("H" + number, "E" + number, "2026-03-10", {lesion}).dump() + "\n");
  }
  return lines;
}

/// Wall and processor seconds; and those of the processor alone, when the disk takes everything at once.
struct Times {
  double wall = 0, processor = 0;
};

template <class Work>
Times timed(Work work) {
  const double start = processor_clock();
  const double wall = seconds(work);
  return {wall, processor_clock() - start};
}

Times record_all(const std::string& path, const std::vector<std::string>& inputs) {
  auto ledger = ledger::Ledger::create(path);
  if (!ledger) throw std::runtime_error("no ledger");
  const support::FixedClock clock("2026-03-20");
  const ledger::Protocol protocol = support::small_protocol();
  return timed([&] {
    for (const std::string& input : inputs) {
      if (!ledger::record(*ledger, {"bench", clock}, protocol, input, "bench.jsonl"))
        throw std::runtime_error("record");
    }
  });
}

/// Calls `append(ledger, author, number)` for each record of the ledger at `path`.
template <class Append>
Times append_all(const std::string& path, Append append) {
  auto ledger = ledger::Ledger::open(path, ledger::Ledger::Access::write);
  if (!ledger) throw std::runtime_error("no ledger");
  const support::FixedClock clock("2026-03-21");
  return timed([&] {
    for (int i = 0; i < records; ++i) {
      if (!append(*ledger, ledger::Author{"bench", clock}, i)) throw std::runtime_error("append");
    }
  });
}

Times insert_all(const std::string& path, const std::vector<KeptRecord>& kept, std::size_t together) {
  BareTables tables(path);
  return timed([&] {
    for (std::size_t i = 0; i < kept.size(); ++i) {
      if (i % together == 0) tables.run("BEGIN IMMEDIATE");
      tables.insert(kept[i]);
      if ((i + 1) % together == 0 || i + 1 == kept.size()) tables.run("COMMIT");
    }
  });
}

void print(const std::string& name, const Times& ours, const Times& theirs) {
  bench::print(name, records / ours.wall, "a second");
  bench::print("  the same bytes into bare SQLite", records / theirs.wall, "a second");
  bench::print("  ledger's time against bare SQLite's", ours.wall / theirs.wall, "times");
  bench::print("  processor time of ours for each", ours.processor / records * 1e6, "us");
}

/// Appends to the ledger of the records, and puts the same bytes into bare tables.
template <class Append>
void measure_entries(const std::string& folder, const std::string& name, const char* kind, Append append) {
  const std::string path = folder + "/alone.ledger";
  const auto size = [&] {
    return ledger::Ledger::open(path, ledger::Ledger::Access::read)->checkpoint()->size;
  };
  const std::uint64_t before = size();
  const Times ours = append_all(path, append);
  const auto kept = kept_from(*ledger::Ledger::open(path, ledger::Ledger::Access::read), before + 1, kind);
  print(name, ours, insert_all(folder + "/" + kind + ".sqlite", kept, 1));
}

}  // namespace

void measure_appends(const std::string& folder) {
  const std::vector<std::string> each = lines();
  std::string file;
  for (const std::string& line : each) file += line;

  const Times alone = record_all(folder + "/alone.ledger", each);
  const std::vector<KeptRecord> kept =
      kept_by(*ledger::Ledger::open(folder + "/alone.ledger", ledger::Ledger::Access::read));
  const Times bare_alone = insert_all(folder + "/alone.sqlite", kept, 1);
  measure_entries(folder, "entries alone, each a durable transaction", "checkpoint",
                  [](ledger::Ledger& ledger, const ledger::Author& author, int) {
                    return bool(ledger::issue_checkpoint(ledger, author));
                  });
  measure_entries(folder, "signatures that open a recall, each a durable transaction", "advice signed",
                  [](ledger::Ledger& ledger, const ledger::Author& author, int i) {
                    return bool(ledger::sign(ledger, author, "E" + std::to_string(10'000 + i), "Dr Rao", 0));
                  });
  const Times together = record_all(folder + "/together.ledger", {file});
  const Times bare_together = insert_all(folder + "/together.sqlite", kept, 100);
  print("records, each a durable transaction", alone, bare_alone);
  print("records of one file, a hundred a transaction", together, bare_together);
  bench::print("  against bare SQLite, a transaction each", together.wall / bare_alone.wall, "times");
  const NothingIsFlushed hurry;
  print("records, each a transaction, nothing flushed", record_all(folder + "/c.ledger", each),
        insert_all(folder + "/c.sqlite", kept, 1));
}

}  // namespace bench
