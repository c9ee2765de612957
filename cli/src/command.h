// What every subcommand shares: how it registers itself, and the options that mean the same everywhere.

#pragma once

#include <functional>
#include <string>

#include "engine/calendar.h"
#include "exit_code.h"

namespace CLI {
class App;
}

namespace cli {

/// What main() does once the command line has been read.
using Run = std::function<ExitCode()>;

/// Options that several commands have. Empty means: not given.
struct CommonOptions {
  std::string ledger;    ///< `--ledger`, else DUEWARD_LEDGER.
  std::string rulesets;  ///< `--rulesets`, else DUEWARD_RULESETS.
  std::string today;     ///< `--today`.
  bool json = false;     ///< `--json`.
};

void add_ledger_option(CLI::App& command, CommonOptions& options);
void add_rulesets_option(CLI::App& command, CommonOptions& options);
void add_today_option(CLI::App& command, CommonOptions& options);
void add_json_option(CLI::App& command, CommonOptions& options);

/// The day of `--today`, else the machine's.
engine::Date today_of(const CommonOptions& options);

/// The day that `text` writes; `option` names it when it is none.
engine::Date date_of(const std::string& option, const std::string& text);

/// Makes `action` what main() will run when `command` was asked for.
void when_asked(CLI::App& command, Run& run, Run action);

/// Every subcommand, in the order in which help shows them.
void add_commands(CLI::App& program, Run& run);

}  // namespace cli
