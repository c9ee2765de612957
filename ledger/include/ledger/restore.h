// A backup is checked, and put where the ledger is.

#pragma once

#include <optional>
#include <string>

#include "engine/result.h"
#include "ledger/audit.h"
#include "ledger/checkpoint.h"

namespace ledger {

/// As `verify` (audit.h), without touching the file: tables of an earlier version, which would be made anew
/// when it is opened, are not compared, and `older_version` of the report says so.
engine::Result<AuditReport> check_backup(const std::string& backup, const std::optional<Checkpoint>& kept);

struct Restored {
  AuditReport report;                ///< Of the copy. With faults: nothing was put in place.
  std::optional<Checkpoint> before;  ///< Of the ledger that was moved aside, where it could still be read.
};

/// Copies `backup`, makes tables of an earlier version anew in the copy, verifies it, with `kept` also
/// against that checkpoint, and puts it at `path`. A ledger that is there is moved to `aside` first, with its
/// log, once no process has it open; `aside` may be empty when there is none. The backup is only read.
///
/// Fails with `ledger_exists` (a ledger is there, and `aside` is empty), `file_exists` (at `aside`),
/// `ledger_locked` (it is in use), `file_not_written`, and as ledger.h says of the backup. Nothing is moved
/// and nothing left when it fails.
engine::Result<Restored> restore(const std::string& backup, const std::string& path,
                                 const std::optional<Checkpoint>& kept, const std::string& aside);

}  // namespace ledger
