// dueward advice sign-batch: many examinations that a person has looked at and named in a file.

#pragma once

#include <CLI/CLI.hpp>

#include "command.h"

namespace cli {

void add_advice_batch(CLI::App& advice, Run& run);

}  // namespace cli
