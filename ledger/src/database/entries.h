// Rows of the table `entries`.

#pragma once

#include <cstdint>
#include <functional>

#include "database/connection.h"
#include "ledger/chain.h"
#include "ledger/checkpoint.h"
#include "ledger/entry.h"

namespace ledger {

inline constexpr const char* entry_columns = "sequence, at, actor, kind, subject, body, previous, hash";

/// An entry from a row of `entry_columns`.
Entry entry_of(const Row& row);
/// The same without a copy; valid as long as the row.
EntryView view_of(const Row& row);

Checkpoint head_of(Connection& connection);

void insert(Connection& connection, const Entry& entry);

}  // namespace ledger
