// Lists of recalls, made of the ledger's lines.

#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "ledger/long_lists.h"
#include "report/work_list.h"

namespace cli {

/// Keys, columns and a row for each line, made as it is written: `ledger` must outlive the list, and a Moment
/// of it be held until then. Fails as the ledger does (ledger_access.h), also while it is written.
WorkList list_of_recalls(const ledger::Ledger& ledger, const std::string& name,
                         std::vector<ledger::RecallLine> lines);

/// The same for a list that is read anew whenever it is gone through: `count` lines that `open` begins.
WorkList list_of_recalls(const ledger::Ledger& ledger, const std::string& name, std::uint64_t count,
                         std::function<engine::Result<ledger::RecallLines>()> open);

}  // namespace cli
