// Gaps, overlaps and rules that never fire in the tables of a ruleset, each with a record that shows it.

#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/result.h"
#include "engine/ruleset.h"

namespace cli {

struct TablesLookedAt {
  std::size_t tables = 0;
  /// `table_gap` and `table_overlap`, when a made record gets there; `dead_rule`, `masked_rule`.
  engine::Errors faults;
  /// What is neither shown to be sound nor met by a made record; and tables whose cells are no constants.
  std::vector<std::string> not_shown;
};

/// `source` is the path of the ruleset.dmn. Takes milliseconds when there is nothing to find.
TablesLookedAt look_at_tables(const std::shared_ptr<const engine::Ruleset>& ruleset,
                              const std::string& source);

}  // namespace cli
