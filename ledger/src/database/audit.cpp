// Verification works on a connection of its own: a temporary database in which everything is derived again,
// with the ledger attached for reading. So nothing of the ledger is trusted but its entries.

#include "ledger/audit.h"

#include <set>
#include <utility>

#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/rebuilt.h"
#include "database/rights_check.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "ledger/chain.h"
#include "schema.h"

namespace ledger {

using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

class Audit {
 public:
  Audit(Connection& connection, const std::optional<Checkpoint>& kept)
      : connection_(connection), kept_(kept) {}
  AuditReport run();

 private:
  void fault(std::uint64_t entry, std::string where, std::string what) {
    report_.faults.push_back({entry, std::move(where), std::move(what)});
  }
  void check_entry(const Entry& entry);
  void replay_entry(const Entry& entry);
  void check_checkpoint();
  void check_documents();
  void check_tables();
  void check_file();

  Connection& connection_;
  const std::optional<Checkpoint>& kept_;
  ChainFollower chain_;
  bool kept_was_met_ = false;
  std::set<std::string> named_documents_;
  AuditReport report_;
};

/// The input or ruleset that the entry is about, and the files that the ruleset imports.
std::vector<std::string> documents_named_in(const json& body) {
  std::vector<std::string> named;
  if (std::string document = text_at(body, "document"); !document.empty())
    named.push_back(std::move(document));
  if (const auto imports = body.find("imports"); imports != body.end()) {
    for (const json& import : *imports) named.push_back(import.get<std::string>());
  }
  return named;
}

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
  replay_entry(entry);
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
  check_tables();
  check_file();
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
  AuditReport report;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    // An empty name: a temporary database that SQLite keeps in memory and on disk as it sees fit.
    Connection connection("", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_URI);
    connection.execute(kept_schema);
    connection.execute(derived_schema);
    connection.run("ATTACH ? AS ledger", read_only_uri(path));
    connection.run("BEGIN");
    report = Audit(connection, kept).run();
    connection.run("ROLLBACK");
    return Done{};
  });
  if (!done) return done.errors();
  return report;
}

}  // namespace ledger
