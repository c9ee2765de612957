#include "database/entries.h"

namespace ledger {

Entry entry_of(const Row& row) {
  return {row.count(0), row.text(1), row.text(2),   row.text(3),
          row.text(4),  row.text(5), row.digest(6), row.digest(7)};
}

EntryView view_of(const Row& row) {
  EntryView entry;
  entry.sequence = row.count(0);
  entry.at = row.view(1);
  entry.actor = row.view(2);
  entry.kind = row.view(3);
  entry.subject = row.view(4);
  entry.body = row.view(5);
  entry.previous = row.digest(6);
  entry.hash = row.digest(7);
  return entry;
}

Checkpoint head_of(Connection& connection) {
  const auto head = connection.first("SELECT sequence, hash FROM entries ORDER BY sequence DESC LIMIT 1",
                                     [](const Row& row) {
                                       return Checkpoint{row.count(0), row.digest(1)};
                                     });
  return head.value_or(Checkpoint{});
}

void insert(Connection& connection, const Entry& entry) {
  connection.run(
      "INSERT INTO entries (sequence, at, actor, kind, subject, body, previous, hash)"
      " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
      entry.sequence, entry.at, entry.actor, entry.kind, entry.subject, entry.body, entry.previous,
      entry.hash);
}

}  // namespace ledger
