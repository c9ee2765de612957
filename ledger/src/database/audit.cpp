// Verification works on a connection of its own: a temporary database in which everything is derived again,
// with the ledger attached for reading. So nothing of the ledger is trusted but its entries.

#include "ledger/audit.h"

#include <algorithm>
#include <thread>
#include <utility>

#include "database/chain_check.h"
#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/file.h"
#include "database/inspect.h"
#include "database/rebuilt.h"
#include "database/rights_check.h"
#include "database/store.h"
#include "database/view.h"
#include "engine/canonical.h"
#include "ledger/restore.h"
#include "named_documents.h"
#include "schema.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

class Audit {
 public:
  Audit(Connection& connection, AuditReport report, Tables tables)
      : connection_(connection), tables_(tables), report_(std::move(report)) {}
  /// Entries up to `last`.
  AuditReport run(std::uint64_t last);

 private:
  void fault(std::uint64_t entry, std::string where, std::string what) {
    report_.faults.push_back({entry, std::move(where), std::move(what)});
  }
  void check_entry(const EntryView& entry);
  void replay_entry(const EntryView& entry);
  void check_instant(const EntryView& entry);
  void note_document(std::uint64_t entry, const std::string& digest);
  void check_documents();
  void check_tables();
  void check_file();

  Connection& connection_;
  Tables tables_;
  std::string last_instant_;
  std::uint64_t set_back_ = 0;
  AuditReport report_;
};

/// In a table, so that memory does not grow with the ledger.
void Audit::note_document(std::uint64_t entry, const std::string& digest) {
  const auto kept = connection_.first(
      "SELECT 1 FROM ledger.documents WHERE digest = ?", [](const Row& row) { return row.number(0); },
      digest);
  if (!kept) fault(entry, "documents", "the document `" + digest + "` that it names is not kept");
  connection_.run("INSERT INTO temp.named (digest, entry) VALUES (?, ?) ON CONFLICT DO NOTHING", digest,
                  entry);
}

/// What the entry says must be JSON in its one form, and its kind one that is known.
void Audit::replay_entry(const EntryView& entry) {
  const json body = json::parse(entry.body, nullptr, false);
  if (body.is_discarded() || !body.is_object())
    return fault(entry.sequence, "body", "the body is not a JSON object");
  if (engine::canonical_json(body) != entry.body) {
    fault(entry.sequence, "body", "the body is not in canonical form (RFC 8785)");
  }
  const auto kind = kind_of(entry.kind);
  if (!kind) return fault(entry.sequence, "kind", "no such kind: `" + std::string(entry.kind) + "`");
  std::vector<std::string> documents;
  try {
    documents = documents_named_in(body);
    if (const auto error = objection(connection_, std::string(entry.actor), *kind, body))
      fault(entry.sequence, "accounts", error->message);
    derive(connection_, *kind, entry.sequence, body);
  } catch (const std::exception& problem) {
    fault(entry.sequence, "body",
          std::string("what it says does not follow from the entries before: ") + problem.what());
  }
  // Outside: that the disk cannot be read is no fault of what an entry says.
  for (const std::string& document : documents) note_document(entry.sequence, document);
}

void Audit::check_entry(const EntryView& entry) {
  if (!is_utf8(entry.actor)) fault(entry.sequence, "actor", "the actor is no text in UTF-8");
  if (!is_utf8(entry.subject)) fault(entry.sequence, "subject", "the subject is no text in UTF-8");
  check_instant(entry);
  replay_entry(entry);
}

/// One remark, whatever the number: two machines whose clocks differ leave many such entries.
void Audit::check_instant(const EntryView& entry) {
  if (entry.at < last_instant_) {
    if (++set_back_ == 1) {
      report_.remarks.push_back({entry.sequence, "clock",
                                 "it was written at " + std::string(entry.at) +
                                     ", and the entry before it at " + last_instant_ +
                                     ": the machine's clock was set back"});
    }
  }
  last_instant_ = entry.at;
}

void Audit::check_documents() {
  connection_.each(
      "SELECT digest, bytes, (SELECT entry FROM temp.named AS n WHERE n.digest = d.digest)"
      " FROM ledger.documents AS d ORDER BY digest",
      [&](const Row& row) {
        if (engine::digest_text(row.view(1)) != row.view(0))
          fault(row.count(2), "documents", "the bytes kept under `" + row.text(0) + "` are not those");
        if (row.is_null(2)) fault(0, "documents", "no entry names the document `" + row.text(0) + "`");
      });
}

void Audit::check_tables() {
  for (Difference& difference : differences(connection_)) {
    fault(difference.entry, std::move(difference.table), std::move(difference.what));
  }
}

void Audit::check_file() {
  connection_.each("PRAGMA ledger.integrity_check", [&](const Row& row) {
    if (row.text(0) != "ok") fault(0, "file", row.text(0));
  });
  connection_.each("PRAGMA ledger.foreign_key_check", [&](const Row& row) {
    fault(0, row.text(0),
          "a row of `" + row.text(0) + "` points to a row of `" + row.text(2) + "` that is not there");
  });
}

AuditReport Audit::run(std::uint64_t last) {
  connection_.execute("CREATE TEMP TABLE named (digest TEXT PRIMARY KEY, entry INTEGER) WITHOUT ROWID");
  connection_.each(
      "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM ledger.entries"
      " WHERE sequence <= ? ORDER BY sequence",
      [&](const Row& row) { check_entry(view_of(row)); }, last);
  check_documents();
  if (tables_ == Tables::compared) check_tables();
  check_file();
  if (set_back_ > 1) report_.remarks.back().what += ", " + std::to_string(set_back_) + " times in all";
  report_.accounts = all_accounts(connection_).size();
  return std::move(report_);
}

/// A URI, so that the file can be attached for reading only. Source: SQLite, "Uniform Resource Identifiers".
std::string read_only_uri(const std::string& path) {
  std::string uri = "file:";
  for (const char c : path) {
    if (c == '%')
      uri += "%25";
    else if (c == '?')
      uri += "%3f";
    else if (c == '#')
      uri += "%23";
    else
      uri += c;
  }
  return uri + "?mode=ro";
}

}  // namespace

Result<AuditReport> verify(const std::string& path, const std::optional<Checkpoint>& kept) {
  // Opening it says in plain words what is wrong with a file that is no ledger.
  if (auto opened = Ledger::open(path, Ledger::Access::read); !opened) return opened.errors();
  return inspect(path, kept);
}

Result<AuditReport> check_backup(const std::string& path, const std::optional<Checkpoint>& kept) {
  const auto version = version_of(path);
  if (!version) return version.errors();
  auto report = inspect(path, kept, *version < schema_version ? Tables::not_compared : Tables::compared);
  if (report && *version < schema_version) report->older_version = *version;
  return report;
}

Result<AuditReport> inspect(const std::string& path, const std::optional<Checkpoint>& kept, Tables tables) {
  AuditReport report;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    // An empty name: a temporary database that SQLite keeps in memory and on disk as it sees fit.
    Connection connection("", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_URI);
    connection.execute(kept_schema);
    connection.execute(derived_schema);
    connection.run("ATTACH ? AS ledger", read_only_uri(path));
    connection.run("BEGIN");
    const std::uint64_t last = count_of(connection, "SELECT max(sequence) FROM ledger.entries");
    auto chain = check_chain(path, last, kept, std::max(1U, std::thread::hardware_concurrency()));
    if (!chain) return chain.errors();
    report = Audit(connection, std::move(*chain), tables).run(last);
    connection.run("ROLLBACK");
    return Done{};
  });
  if (!done) return done.errors();
  return report;
}

}  // namespace ledger
