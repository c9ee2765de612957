// Computes past answers again, and marks the ledger with a checkpoint.

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "database/entries.h"
#include "database/spans.h"
#include "database/store.h"
#include "database/transaction.h"
#include "digest_text.h"
#include "engine/advice.h"
#include "engine/canonical.h"
#include "engine/unverified.h"
#include "json_fields.h"
#include "kept_rulesets.h"
#include "ledger/audit.h"

namespace ledger {

using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

class Replay {
 public:
  explicit Replay(const Ledger& ledger) : ledger_(ledger) {}
  void answer(const Entry& entry);
  AuditReport report;

 private:
  Result<engine::Adviser*> adviser_of(const json& stored);
  void fault(const Entry& entry, std::string what) {
    report.faults.push_back({entry.sequence, "replay", std::move(what)});
  }
  void compare(const Entry& entry, const json& body, const json& stored);

  const Ledger& ledger_;
  std::map<std::pair<std::string, bool>, std::unique_ptr<engine::Adviser>>
      advisers_;  ///< By digest; unverified or not.
};

// The answer itself says when nobody vouched for the ruleset: the bytes do not show it.
bool was_unverified(const json& stored) {
  const std::string caution = engine::unverified_caution(text_at(stored.at("ruleset"), "id"));
  const json cautions = stored.value("cautions", json::array());
  return std::find(cautions.begin(), cautions.end(), json(caution)) != cautions.end();
}

Result<engine::Adviser*> Replay::adviser_of(const json& stored) {
  const std::string digest = text_at(stored.at("ruleset"), "digest");
  const bool unverified = was_unverified(stored);
  auto& adviser = advisers_[{digest, unverified}];
  if (adviser) return adviser.get();
  const auto bytes = ledger_.document(digest);
  if (!bytes) return bytes.errors();
  const auto ruleset = load_kept(ledger_, *bytes, digest);
  if (!ruleset) return ruleset.errors();
  adviser = std::make_unique<engine::Adviser>(unverified ? engine::as_unverified(**ruleset) : *ruleset);
  return adviser.get();
}

void Replay::compare(const Entry& entry, const json& body, const json& stored) {
  const std::string exam = text_at(body, "exam");
  const auto record = engine::read_record(engine::canonical_json(body.at("record")), exam);
  std::string again;
  if (!record) {
    again = engine::json_of(engine::refused(exam, record.errors()));
  } else {
    const auto adviser = adviser_of(stored);
    if (!adviser) return fault(entry, "the ruleset cannot be used: " + adviser.errors().front().message);
    again = engine::json_of(
        (*adviser)->advise(*record, engine::parse_date(text_at(body, "today")).value(), exam));
  }
  ++report.advices;
  const std::string before = engine::canonical_json(stored);
  if (again != before)
    fault(entry, "the answer is another one now: kept `" + before + "`, computed `" + again + "`");
}

void Replay::answer(const Entry& entry) {
  try {
    const json body = json::parse(entry.body);
    for (const json& stored : body.at("answers")) compare(entry, body, stored);
  } catch (const std::exception& problem) {
    fault(entry, std::string("the entry cannot be read: ") + problem.what());
  }
}

/// The answers among the entries of `span`.
Result<AuditReport> replay(const std::string& path, const Span& span) {
  const auto reader = Ledger::open(path, Ledger::Access::read);
  if (!reader) return reader.errors();
  const auto documents = Ledger::open(path, Ledger::Access::read);  // read while entries are
  if (!documents) return documents.errors();
  Replay replay(*documents);
  const auto done = reader->store().read([&](Transaction& transaction) -> Result<Done> {
    transaction.connection().each(
        "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries"
        " WHERE sequence BETWEEN ? AND ? AND kind = ? ORDER BY sequence",
        [&](const Row& row) { replay.answer(entry_of(row)); }, span.first, span.last,
        text_of(Kind::advice_given));
    return Done{};
  });
  if (!done) return done.errors();
  return std::move(replay.report);
}

}  // namespace

Result<AuditReport> replay(const Ledger& ledger, std::uint32_t threads) {
  const auto checkpoint = ledger.checkpoint();
  if (!checkpoint) return checkpoint.errors();
  // Entries and documents are never changed: up to this one all parts read the same, whatever is written
  // meanwhile.
  auto parts = over<AuditReport>(spans_of(checkpoint->size, threads),
                                 [&](const Span& span) { return replay(ledger.path(), span); });
  AuditReport report;
  report.checkpoint = *checkpoint;
  for (auto& part : parts) {
    if (!part) return part.errors();
    report.advices += part->advices;
    std::move(part->faults.begin(), part->faults.end(), std::back_inserter(report.faults));
  }
  return report;
}

Result<Checkpoint> issue_checkpoint(Ledger& ledger, const Author& author) {
  Checkpoint issued;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const Checkpoint before = transaction.head();
    transaction.append(author, Kind::checkpoint, "ledger",
                       {{"size", before.size}, {"head", text_of(before.head)}});
    issued = transaction.head();
    return Done{};
  });
  if (!done) return done.errors();
  return issued;
}

}  // namespace ledger
