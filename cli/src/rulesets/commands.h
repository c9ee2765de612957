// The subcommands of `dueward rulesets`, one file each, and what they share.

#pragma once

#include <string>
#include <vector>

#include "command.h"

namespace cli {

struct RulesetsOptions : CommonOptions {
  std::vector<std::string> ids;  ///< Empty: all.
};

/// `[ID...]` and `--rulesets`.
void add_ids(CLI::App& command, RulesetsOptions& options);

/// The ids that were named, else all of the folder.
std::vector<std::string> chosen_ids(const RulesetsOptions& options);

void add_rulesets_list(CLI::App& group, Run& run);
void add_rulesets_show(CLI::App& group, Run& run);
void add_rulesets_check(CLI::App& group, Run& run);
void add_rulesets_coverage(CLI::App& group, Run& run);
void add_rulesets_verify(CLI::App& group, Run& run);
void add_rulesets_sign(CLI::App& group, Run& run);
void add_rulesets_compare(CLI::App& group, Run& run);

}  // namespace cli
