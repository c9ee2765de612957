// Verification works on a connection of its own: a temporary database in which everything is derived again,
// with the ledger attached for reading. So nothing of the ledger is trusted but its entries.

#include "ledger/audit.h"

#include <set>
#include <utility>

#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/file.h"
#include "database/inspect.h"
#include "database/rebuilt.h"
#include "database/rights_check.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "ledger/chain.h"
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
  Audit(Connection& connection, const std::optional<Checkpoint>& kept, Tables tables)
      : connection_(connection), kept_(kept), tables_(tables) {}
  AuditReport run();

 private:
  void fault(std::uint64_t entry, std::string where, std::string what) {
    report_.faults.push_back({entry, std::move(where), std::move(what)});
  }
  void check_entry(const Entry& entry);
  void replay_entry(const Entry& entry);
  void check_instant(const Entry& entry);
  void check_checkpoint();
  void check_documents();
  void check_tables();
  void check_file();

  Connection& connection_;
  const std::optional<Checkpoint>& kept_;
  Tables tables_;
  ChainFollower chain_;
  bool kept_was_met_ = false;
  std::string last_instant_;
  std::uint64_t set_back_ = 0;
  std::set<std::string> named_documents_;
  AuditReport report_;
};

/// What the entry says must be JSON in its one form, and its kind one that is known.
void Audit::replay_entry(const Entry& entry) {
  const json body = json::parse(entry.body, nullptr, false);
  if (body.is_discarded() || !body.is_object())
    return fault(entry.sequence, "body", "the body is not a JSON object");
  if (engine::canonical_json(body) != entry.body) {
    fault(entry.sequence, "body", "the body is not in canonical form (RFC 8785)");
  }
  const auto kind = kind_of(entry.kind);
  if (!kind) return fault(entry.sequence, "kind", "no such kind: `" + entry.kind + "`");
  try {
    for (const std::string& document : documents_named_in(body)) {
      named_documents_.insert(document);
      if (!has_document(connection_, document)) {
        fault(entry.sequence, "documents", "the document `" + document + "` that it names is not kept");
      }
    }
    if (const auto error = objection(connection_, entry.actor, *kind, body))
      fault(entry.sequence, "accounts", error->message);
    derive(connection_, *kind, entry.sequence, body);
  } catch (const std::exception& problem) {
    fault(entry.sequence, "body",
          std::string("what it says does not follow from the entries before: ") + problem.what());
  }
}

void Audit::check_entry(const Entry& entry) {
  if (const auto broken = chain_.next(entry)) fault(broken->sequence, "chain", broken->fault);
  if (kept_ && entry.sequence == kept_->size) {
    kept_was_met_ = true;
    if (entry.hash != kept_->head) {
      fault(entry.sequence, "checkpoint",
            "its hash is not that of the checkpoint: the ledger was rewritten up to here");
    }
  }
  if (!is_utf8(entry.actor)) fault(entry.sequence, "actor", "the actor is no text in UTF-8");
  if (!is_utf8(entry.subject)) fault(entry.sequence, "subject", "the subject is no text in UTF-8");
  check_instant(entry);
  replay_entry(entry);
}

/// One remark, whatever the number: two machines whose clocks differ leave many such entries.
void Audit::check_instant(const Entry& entry) {
  if (entry.at < last_instant_) {
    if (++set_back_ == 1) {
      report_.remarks.push_back({entry.sequence, "clock",
                                 "it was written at " + entry.at + ", and the entry before it at " +
                                     last_instant_ + ": the machine's clock was set back"});
    }
  }
  last_instant_ = entry.at;
}

void Audit::check_checkpoint() {
  if (!kept_ || kept_->size == 0 || kept_was_met_) return;
  fault(chain_.size() + 1, "checkpoint",
        "the checkpoint was taken at entry " + std::to_string(kept_->size) + ", the ledger ends at entry " +
            std::to_string(chain_.size()) + ": entries were cut off");
}

void Audit::check_documents() {
  for (const std::string& digest : broken_documents(connection_)) {
    fault(first_entry_naming(connection_, digest), "documents",
          "the bytes kept under `" + digest + "` are not those");
  }
  for (const std::string& digest : all_documents(connection_)) {
    if (named_documents_.contains(digest)) continue;
    fault(0, "documents", "no entry names the document `" + digest + "`");
  }
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

AuditReport Audit::run() {
  connection_.each(
      "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM ledger.entries ORDER BY sequence",
      [&](const Row& row) { check_entry(entry_of(row)); });
  check_checkpoint();
  check_documents();
  if (tables_ == Tables::compared) check_tables();
  check_file();
  if (set_back_ > 1) report_.remarks.back().what += ", " + std::to_string(set_back_) + " times in all";
  report_.checkpoint = {chain_.size(), chain_.head()};
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
    report = Audit(connection, kept, tables).run();
    connection.run("ROLLBACK");
    return Done{};
  });
  if (!done) return done.errors();
  return report;
}

}  // namespace ledger
