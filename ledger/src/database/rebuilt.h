// Compares an attached ledger (`ledger`) with the tables that were derived again beside it (`main`).

#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace ledger {

class Connection;

struct Difference {
  std::uint64_t entry = 0;  ///< The entry that last wrote the row; 0 when it is not about a row.
  std::string table;
  std::string what;
};

/// Rows that are missing, changed or too many in the ledger's derived tables, and tables, indexes and
/// triggers that are not those of schema.sql.
std::vector<Difference> differences(Connection& connection);

}  // namespace ledger
