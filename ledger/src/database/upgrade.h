// A ledger whose derived tables are of an earlier version gets those of this one, made from its entries.

#pragma once

namespace ledger {

class Connection;

/// Drops all tables but entries and documents, makes those of derived.sql, and derives every entry again: one
/// transaction, so that a crash leaves the ledger as it was. Entries and documents are not touched. Does
/// nothing when another process was quicker.
void upgrade(Connection& connection);

}  // namespace ledger
