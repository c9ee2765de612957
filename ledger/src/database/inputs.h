// Looks inputs up that wait for a person.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "database/transaction.h"

namespace ledger {

/// The entries of waiting inputs with these bytes.
std::vector<std::uint64_t> waiting_inputs_with(Transaction& transaction, const std::string& document);

bool is_waiting(Transaction& transaction, std::uint64_t entry);

/// The rulesets whose bytes the ledger holds.
bool is_installed(Transaction& transaction, const std::string& digest);

}  // namespace ledger
