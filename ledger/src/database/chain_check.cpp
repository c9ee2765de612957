// An entry holds the hash of the one before, so that parts of the chain can be followed beside each other:
// each part begins with what the entry before it says its hash is.

#include "database/chain_check.h"

#include <iterator>
#include <utility>
#include <vector>

#include "database/connection.h"
#include "database/entries.h"
#include "database/spans.h"
#include "database/store.h"
#include "ledger/chain.h"

namespace ledger {

using engine::Done;
using engine::Result;

namespace {

struct Followed {
  Checkpoint end;
  bool kept_was_met = false;
  std::vector<AuditFault> faults;
};

Checkpoint entry_before(Connection& connection, const Span& span) {
  return connection
      .first(
          "SELECT sequence, hash FROM entries WHERE sequence < ? ORDER BY sequence DESC LIMIT 1",
          [](const Row& row) {
            return Checkpoint{row.count(0), row.digest(1)};
          },
          span.first)
      .value_or(Checkpoint{});
}

Followed follow(Connection& connection, const Span& span, const std::optional<Checkpoint>& kept) {
  Followed found;
  ChainFollower chain(entry_before(connection, span));
  connection.each(
      "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries"
      " WHERE sequence BETWEEN ? AND ? ORDER BY sequence",
      [&](const Row& row) {
        const EntryView entry = view_of(row);
        if (auto broken = chain.next(entry))
          found.faults.push_back({broken->sequence, "chain", std::move(broken->fault)});
        if (!kept || entry.sequence != kept->size) return;
        found.kept_was_met = true;
        if (entry.hash != kept->head) {
          found.faults.push_back(
              {entry.sequence, "checkpoint",
               "its hash is not that of the checkpoint: the ledger was rewritten up to here"});
        }
      },
      span.first, span.last);
  found.end = {chain.size(), chain.head()};
  return found;
}

Result<Followed> follow(const std::string& path, const Span& span, const std::optional<Checkpoint>& kept) {
  Followed found;
  const auto done = at_the_border(path, [&]() -> Result<Done> {
    Connection connection(path, SQLite::OPEN_READONLY);
    found = follow(connection, span, kept);
    return Done{};
  });
  if (!done) return done.errors();
  return found;
}

}  // namespace

Result<AuditReport> check_chain(const std::string& path, std::uint64_t last,
                                const std::optional<Checkpoint>& kept, std::uint32_t threads) {
  AuditReport report;
  bool kept_was_met = false;
  auto parts =
      over<Followed>(spans_of(last, threads), [&](const Span& span) { return follow(path, span, kept); });
  for (auto& part : parts) {
    if (!part) return part.errors();
    std::move(part->faults.begin(), part->faults.end(), std::back_inserter(report.faults));
    report.checkpoint = part->end;
    kept_was_met = kept_was_met || part->kept_was_met;
  }
  if (!kept || kept->size == 0 || kept_was_met) return report;
  report.faults.push_back({report.checkpoint.size + 1, "checkpoint",
                           "the checkpoint was taken at entry " + std::to_string(kept->size) +
                               ", the ledger ends at entry " + std::to_string(report.checkpoint.size) +
                               ": entries were cut off"});
  return report;
}

}  // namespace ledger
