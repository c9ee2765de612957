// dueward audit measures and lookback: how well the unit does, and whom a fault concerns.

#pragma once

#include "command.h"

namespace cli {

/// Adds both to the subcommand `audit`.
void add_audit_measures(CLI::App& audit, Run& run);

}  // namespace cli
