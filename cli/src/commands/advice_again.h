// dueward advice again: the rules in force are asked about examinations that others had answered.

#pragma once

#include <CLI/CLI.hpp>

#include "command.h"

namespace cli {

void add_advice_again(CLI::App& advice, Run& run);

}  // namespace cli
