// Copies of a ledger's file.

#pragma once

#include <string>

#include "engine/result.h"
#include "ledger/checkpoint.h"

namespace ledger {

/// Writes a copy of the ledger `from` into the empty file `to`: consistent, whoever writes meanwhile, and one
/// file without a log beside it. Errors name `as`, what the copy is to be called.
engine::Result<engine::Done> copy_ledger(const std::string& from, const std::string& to,
                                         const std::string& as);

/// Verifies `file` as a ledger; its first fault is an error `code`, which names `as`.
engine::Result<Checkpoint> checked(const std::string& file, const std::string& as, const std::string& code);

/// Keeps the ledger as it is beside it before its tables are made anew: `FILE.version-1.backup`, with a
/// number where that is taken. Gives the name.
engine::Result<std::string> keep_beside(const std::string& path, std::int64_t version);

}  // namespace ledger
