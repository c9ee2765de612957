// Looks protocols up.

#pragma once

#include <optional>
#include <vector>

#include "database/transaction.h"
#include "ledger/protocol.h"

namespace ledger {

class Connection;

std::optional<AdoptedProtocol> protocol_on(Connection& connection, const engine::Date& day);
std::vector<AdoptedProtocol> all_protocols(Connection& connection);

/// Those of the protocol in force on `day`; the defaults when there is none.
ProtocolTerms terms_on(Connection& connection, const engine::Date& day);

}  // namespace ledger
