// What a verification found, for people and as JSON.

#pragma once

#include <optional>
#include <string>

#include "exit_code.h"
#include "ledger/audit.h"

namespace cli {

/// `sound: 12 entries, none altered`, and that it continues from the checkpoint when there is one.
std::string sound_words(const ledger::AuditReport& report, const std::optional<ledger::Checkpoint>& kept);

/// Prints the faults, or `sound` when there are none, then the checkpoint.
ExitCode print(const ledger::AuditReport& report, const std::string& sound, bool as_json);

}  // namespace cli
