// Reads that make one answer out of one moment of the ledger.

#pragma once

#include <string_view>

#include "database/connection.h"
#include "database/store.h"
#include "database/transaction.h"
#include "ledger/ledger.h"

namespace ledger {

/// What `fill(Connection&, Answer&)` makes of the ledger as of one moment.
template <class Answer, class Fill>
engine::Result<Answer> viewed(const Ledger& ledger, Fill fill) {
  Answer answer{};
  const auto done = ledger.store().read([&](Transaction& transaction) -> engine::Result<engine::Done> {
    fill(transaction.connection(), answer);
    return engine::Done{};
  });
  if (!done) return done.errors();
  return answer;
}

/// The number that a statement gives; 0 when it gives none.
template <class... Values>
std::uint64_t count_of(Connection& connection, const char* sql, const Values&... values) {
  return connection
      .first(
          sql, [](const Row& row) { return row.count(0); }, values...)
      .value_or(0);
}

}  // namespace ledger
