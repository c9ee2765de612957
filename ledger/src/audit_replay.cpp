// Computes past answers again, and marks the ledger with a checkpoint.

#include <algorithm>
#include <map>
#include <utility>

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
  if (entry.kind != text_of(Kind::advice_given)) return;
  try {
    const json body = json::parse(entry.body);
    for (const json& stored : body.at("answers")) compare(entry, body, stored);
  } catch (const std::exception& problem) {
    fault(entry, std::string("the entry cannot be read: ") + problem.what());
  }
}

}  // namespace

Result<AuditReport> replay(const Ledger& ledger) {
  auto reader = Ledger::open(ledger.path(), Ledger::Access::read);
  if (!reader) return reader.errors();
  Replay replay(*reader);  // documents are read while entries are: on another connection
  const auto done = ledger.each_entry(1, [&](const Entry& entry) { replay.answer(entry); });
  if (!done) return done.errors();
  const auto checkpoint = ledger.checkpoint();
  if (!checkpoint) return checkpoint.errors();
  replay.report.checkpoint = *checkpoint;
  return std::move(replay.report);
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
