#include "database/entries.h"

namespace ledger {

Entry entry_of(const Row& row) {
  return {row.count(0), row.text(1), row.text(2),   row.text(3),
          row.text(4),  row.text(5), row.digest(6), row.digest(7)};
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
