// The answers of several rulesets about one record beside each other, and what makes them differ.

#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/advice.h"

namespace cli {

struct Answered {
  std::shared_ptr<const engine::Ruleset> ruleset;
  engine::Advice advice;
};

/// A table for a person: ruleset, answer, due window, rule, reason; then the facts that the rulesets derive
/// differently, and what each deciding row says. `source` names the record.
std::string side_by_side(const std::vector<Answered>& answers, const std::string& source);

/// The same as one line of JSON, without line feed: docs/advice-format.md.
std::string side_by_side_json(const std::vector<Answered>& answers);

}  // namespace cli
