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

bool has_document(Connection& connection, const std::string& digest);
std::vector<std::string> all_documents(Connection& connection);
/// Those whose bytes give another digest.
std::vector<std::string> broken_documents(Connection& connection);
/// The first entry whose body names the document; 0 when none does.
std::uint64_t first_entry_naming(Connection& connection, const std::string& digest);

}  // namespace ledger
