// dueward rulesets: what is there, what it says, whether it answers its guideline's own cases, and whose
// bytes it is.

#include <CLI/CLI.hpp>

#include "commands/commands.h"
#include "rulesets/commands.h"
#include "rulesets_folder.h"

namespace cli {

void add_ids(CLI::App& command, RulesetsOptions& options) {
  command.add_option("id", options.ids, "Ids of rulesets; left out: all")->type_name("ID");
  add_rulesets_option(command, options);
}

std::vector<std::string> chosen_ids(const RulesetsOptions& options) {
  return options.ids.empty() ? ruleset_ids(rulesets_folder(options)) : options.ids;
}

void add_rulesets(CLI::App& program, Run& run) {
  CLI::App* group = program.add_subcommand("rulesets", "The guidelines that can be asked, and their checks");
  group->require_subcommand(1);
  add_rulesets_list(*group, run);
  add_rulesets_show(*group, run);
  add_rulesets_check(*group, run);
  add_rulesets_coverage(*group, run);
  add_rulesets_compare(*group, run);
  add_rulesets_verify(*group, run);
  add_rulesets_sign(*group, run);
}

}  // namespace cli
