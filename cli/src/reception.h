// Files into the ledger: what `record`, `result` and the inbox share.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"
#include "ledger/reception.h"

namespace cli {

/// ledger::record or ledger::result.
using Receive = engine::Result<std::vector<ledger::Receipt>> (*)(ledger::Ledger&, const ledger::Author&,
                                                                 const ledger::Protocol&, std::string_view,
                                                                 std::string_view);

/// True when a person must look at it: refused or unmatched.
bool needs_a_person(const ledger::Receipt& receipt);

/// One file's receipts in a line: `monday.jsonl: 12 recorded, 1 refused`.
std::string summary_of(const std::string& source, const std::vector<ledger::Receipt>& receipts);

/// What a person should read of one receipt, indented; empty when there is nothing beyond the summary.
std::string notes_of(const ledger::Receipt& receipt);

/// One line: `{"source":..,"line":..,"received":..,"exam":..,"person":..,"entry":..,"advice":..,"notes":[..],
/// "errors":[..]}`.
std::string json_of(const std::string& source, const ledger::Receipt& receipt);

}  // namespace cli
