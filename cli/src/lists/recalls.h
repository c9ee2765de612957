// Lists of recalls, made of the ledger's lines.

#pragma once

#include <vector>

#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "report/work_list.h"

namespace cli {

/// Keys, columns and a row for each line. Fails as the ledger does (ledger_access.h).
WorkList list_of_recalls(const ledger::Ledger& ledger, const std::string& name,
                         const std::vector<ledger::RecallLine>& lines);

}  // namespace cli
