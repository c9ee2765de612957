// What can be shown of a ruleset: that its tables have no gap and no overlap, and that its answers keep the
// laws of engine/laws.h. Each fault comes with a record that shows it.

#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "engine/result.h"
#include "engine/ruleset.h"

namespace cli {

struct Proofs {
  engine::Errors faults;
  std::string text;  ///< What was shown, and what was not worked through: some lines for a person.
};

/// `source` is the path of the ruleset.dmn. A broken law is no fault when a line of `sources_text`
/// (SOURCES.md) under
/// `## Where more is not sooner` names both rows. `budget`: runs for each law and shape.
Proofs prove(const std::shared_ptr<const engine::Ruleset>& ruleset, const std::string& source,
             const std::string& sources_text, std::uint32_t budget);

}  // namespace cli
