// Proof that a ledger is what was written: the chain, what hangs on it, and that past answers come out again.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/result.h"
#include "ledger/checkpoint.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

struct AuditFault {
  std::uint64_t entry = 0;  ///< The entry it concerns; 0 when it is about the file as a whole.
  std::string where;        ///< `chain`, `body`, `documents`, `people`, ...: the table or the check.
  std::string what;
};

struct AuditReport {
  Checkpoint checkpoint;           ///< As the ledger stands.
  std::uint64_t advices = 0;       ///< `replay`: answers computed again.
  std::uint64_t accounts = 0;      ///< `verify`: accounts that have a role. 0: everyone may do everything.
  std::int64_t older_version = 0;  ///< Of the tables, where they are older than the program's (restore.h).
  std::vector<AuditFault> faults;
  std::vector<AuditFault> remarks;  ///< `verify`: what a person should know and is no fault.
};

/// Checks sequence, links and hashes of all entries, that each body is canonical JSON, kept bytes against
/// their digests, the tables and triggers themselves, the derived tables against a rebuild from the entries,
/// foreign keys, that each entry was written by an account that may write it, and SQLite's integrity check.
/// With `kept`, a checkpoint from elsewhere, also that the ledger continues from there. Faults of the content
/// are in the report; fails only when the file cannot be read. A clock that was set back is remarked: order
/// is by number, never by instant.
engine::Result<AuditReport> verify(const std::string& path, const std::optional<Checkpoint>& kept);

/// Computes every answer again from the record and the ruleset bytes that the ledger holds, and compares byte
/// for byte; faults in the order of the entries. `threads` readers, each with a part of the entries. What is
/// written meanwhile is left for the next time: the report's checkpoint is the last entry that was looked at.
engine::Result<AuditReport> replay(const Ledger& ledger, std::uint32_t threads = 1);

/// Appends a `checkpoint` entry and gives the checkpoint of the ledger with it.
engine::Result<Checkpoint> issue_checkpoint(Ledger& ledger, const Author& author);

}  // namespace ledger
