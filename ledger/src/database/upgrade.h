// A ledger whose derived tables are of an earlier version gets those of this one, made from its entries.

#pragma once

#include <functional>

#include "engine/result.h"

namespace ledger {

class Connection;

/// Drops all tables but entries and documents, makes those of derived.sql, and derives every entry again: one
/// transaction, so that a crash leaves the ledger as it was. Entries and documents are not touched. Before
/// that calls `keep`, which copies the ledger while nobody else can write, and whose errors end it. Does
/// nothing when another process was quicker.
engine::Result<engine::Done> upgrade(Connection& connection,
                                     const std::function<engine::Result<engine::Done>()>& keep);

}  // namespace ledger
