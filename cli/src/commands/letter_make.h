// The subcommands of `letter` that make letters and check what they are made from.

#pragma once

#include "command.h"

namespace cli {

/// `letter make` and `letter check`.
void add_letter_make(CLI::App& letter, Run& run);

}  // namespace cli
