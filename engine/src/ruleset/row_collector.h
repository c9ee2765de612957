// The rows of a ruleset's tables that carry a row id, with what they say and where they come from.

#pragma once

#include <string>
#include <vector>

#include "engine/model.h"
#include "engine/result.h"
#include "engine/ruleset.h"

namespace engine {

/// The columns are annotations named `row`, `says`, `source` and `evidence`. Faults are added to `errors`.
std::vector<RulesetRow> collect_rows(const std::vector<TableView>& tables, Errors& errors);

/// By table and rule: the row id, empty where a rule has none.
std::vector<std::vector<std::string>> row_ids(const std::vector<TableView>& tables);

}  // namespace engine
