// Which guidelines a command asks: `--ruleset`, `--protocol`, `--unverified`, the same for every command that
// gives advice.

#pragma once

#include <string>
#include <vector>

#include "command.h"
#include "rulesets_folder.h"

namespace cli {

struct GuidelineOptions : CommonOptions {
  std::vector<std::string> ruleset_ids;  ///< `--ruleset`, else DUEWARD_RULESET.
  std::string protocol;                  ///< `--protocol`, else DUEWARD_PROTOCOL.
  bool unverified = false;               ///< `--unverified`.
};

/// Those three and `--rulesets`.
void add_guideline_options(CLI::App& command, GuidelineOptions& options);

struct Guidelines {
  std::vector<RulesetFile> rulesets;  ///< In the order of naming; never one twice.
  std::string protocol;               ///< Its id; empty when rulesets were named.
  std::vector<std::string>
      settings;  ///< Of the protocol, for records that leave them out: `nation=Scotland`.
  std::string interval_end = "from";  ///< Of the protocol.
};

/// What was named on the command line, else in the variables; empty when nothing was. A ruleset that is not
/// there is wrong usage; one that cannot be loaded or is not verified is unreadable input.
Guidelines named_guidelines(const GuidelineOptions& options);

/// One more ruleset, as the options allow it.
RulesetFile ruleset_by(const GuidelineOptions& options, const std::string& id);

/// Ends the command: nobody said which guideline shall answer.
[[noreturn]] void fail_without_guideline();

}  // namespace cli
