// The worked cases of a ruleset: what the guideline itself answers, against what the ruleset answers.

#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/ruleset.h"

namespace cli {

struct FailedCase {
  std::string id;
  std::string expected;
  std::string answered;
  std::string why;  ///< The case's own reason.
};

struct CaseRun {
  std::size_t total = 0;
  std::vector<FailedCase> failed;
  std::vector<std::string> unreached;  ///< Row ids of the ruleset that no case fired, in the file's order.
  std::map<std::string, std::vector<std::string>>
      reached_by;                     ///< Row id to the ids of the cases that fire it.
  std::set<std::string> ask_instead;  ///< Rulesets that the answers send patients to.
};

/// Runs `cases` (JSON Lines; docs/ruleset-format.md), each as of the day of its examination. A line that is
/// no case is an error.
engine::Result<CaseRun> run_cases(const std::shared_ptr<const engine::Ruleset>& ruleset,
                                  std::string_view cases, std::string_view source);

}  // namespace cli
