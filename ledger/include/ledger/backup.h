// A copy of a ledger while it is in use.

#pragma once

#include <string>

#include "engine/result.h"
#include "ledger/checkpoint.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

/// Writes a consistent copy to `file`, which must not be there, as one file that is flushed to the disk and
/// then verified as `verify` does (audit.h). Appends a `backup` entry to the ledger, after the copy. Gives
/// the checkpoint of the copy.
///
/// Fails with `file_exists`, `file_not_written` (no room, no such folder), `backup_not_sound` (it was
/// written and is not what it should be: the copy is removed), and as ledger.h says. Nothing half-written
/// stays at `file`.
engine::Result<Checkpoint> back_up(Ledger& ledger, const Author& author, const std::string& file);

}  // namespace ledger
