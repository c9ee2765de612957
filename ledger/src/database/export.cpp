#include "ledger/export.h"

#include "database/connection.h"
#include "database/entries.h"
#include "database/store.h"
#include "database/transaction.h"
#include "export_format.h"
#include "ledger/chain.h"
#include "ledger/new_file.h"
#include "named_documents.h"
#include "places.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

/// Which documents were written stands in a temporary table, which SQLite keeps on the disk when it is large.
class Export {
 public:
  Export(Transaction& transaction, const std::string& path, const ExportSink& sink)
      : transaction_(transaction), connection_(transaction.connection()), path_(path), sink_(sink) {}
  Result<Done> run();

 private:
  Error not_sound(const std::string& what) const {
    return {"ledger_not_sound", "the ledger is not sound and cannot be exported: " + what, in_file(path_),
            "`audit verify` names every fault; a backup may be sound"};
  }
  Error not_sound(const Entry& entry, const std::string& what) const {
    return not_sound("entry " + std::to_string(entry.sequence) + ": " + what);
  }
  Result<Done> write_document(const Entry& entry, const std::string& digest);
  Result<Done> write_entry(const Entry& entry);
  Result<Done> check_nothing_is_left() const;

  Transaction& transaction_;
  Connection& connection_;
  const std::string& path_;
  const ExportSink& sink_;
  ChainFollower chain_;
  std::uint64_t documents_ = 0;
};

Result<Done> Export::write_document(const Entry& entry, const std::string& digest) {
  const auto written = connection_.first(
      "SELECT 1 FROM temp.written WHERE digest = ?", [](const Row& row) { return row.number(0); }, digest);
  if (written) return Done{};
  auto bytes = transaction_.document(digest);
  if (!bytes) return not_sound(entry, "the document `" + digest + "` that it names is not kept");
  if (engine::digest_text(*bytes) != digest)
    return not_sound(entry, "the bytes kept under `" + digest + "` are not those");
  connection_.run("INSERT INTO temp.written (digest) VALUES (?)", digest);
  ++documents_;
  return sink_(line_of(KeptDocument{digest, std::move(*bytes)}));
}

Result<Done> Export::write_entry(const Entry& entry) {
  if (const auto broken = chain_.next(entry))
    return not_sound("entry " + std::to_string(broken->sequence) + ": " + broken->fault);
  const json body = json::parse(entry.body, nullptr, false);
  if (!is_utf8(entry.actor) || !is_utf8(entry.subject))
    return not_sound(entry, "it holds text that is not UTF-8");
  if (!body.is_object() || engine::canonical_json(body) != entry.body)
    return not_sound(entry, "the body is no JSON object in canonical form (RFC 8785)");
  for (const std::string& digest : documents_named_in(body)) {
    if (auto written = write_document(entry, digest); !written) return written;
  }
  return sink_(line_of(entry));
}

Result<Done> Export::check_nothing_is_left() const {
  const auto kept =
      connection_.first("SELECT count(*) FROM documents", [](const Row& row) { return row.count(0); });
  if (kept == documents_) return Done{};
  return not_sound("it keeps documents that no entry names");
}

Result<Done> Export::run() {
  connection_.execute("DROP TABLE IF EXISTS temp.written");
  connection_.execute("CREATE TEMP TABLE written (digest TEXT PRIMARY KEY) STRICT");
  if (auto begun = sink_(header_line()); !begun) return begun;
  Result<Done> done = Done{};
  connection_.each(
      "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries ORDER BY sequence",
      [&](const Row& row) {
        if (done) done = write_entry(entry_of(row));
      });
  if (done) done = check_nothing_is_left();
  if (done) done = sink_(line_of(EndOfExport{documents_, {chain_.size(), chain_.head()}}));
  connection_.execute("DROP TABLE temp.written");
  return done;
}

}  // namespace

Result<Checkpoint> export_lines(const Ledger& ledger, const ExportSink& sink) {
  Checkpoint checkpoint;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    checkpoint = transaction.head();
    return Export(transaction, ledger.path(), sink).run();
  });
  if (!done) return done.errors();
  return checkpoint;
}

Result<Checkpoint> export_file(const Ledger& ledger, const std::string& file) {
  Draft draft(file);
  if (auto begun = draft.begin(); !begun) return begun.errors();
  auto written = export_lines(ledger, [&](const std::string& line) { return draft.write(line); });
  if (!written) return written;
  if (auto placed = draft.put_in_place(); !placed) return placed.errors();
  return written;
}

}  // namespace ledger
