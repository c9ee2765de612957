#include "database/inputs.h"

#include "database/connection.h"

namespace ledger {

std::vector<std::uint64_t> waiting_inputs_with(Transaction& transaction, const std::string& document) {
  std::vector<std::uint64_t> entries;
  transaction.connection().each(
      "SELECT entry FROM inputs WHERE document = ? ORDER BY entry",
      [&](const Row& row) { entries.push_back(row.count(0)); }, document);
  return entries;
}

bool is_waiting(Transaction& transaction, std::uint64_t entry) {
  return transaction.connection()
      .first(
          "SELECT 1 FROM inputs WHERE entry = ?", [](const Row& row) { return row.number(0); }, entry)
      .has_value();
}

bool is_installed(Transaction& transaction, const std::string& digest) {
  return transaction.connection()
      .first(
          "SELECT 1 FROM rulesets WHERE digest = ?", [](const Row& row) { return row.number(0); }, digest)
      .has_value();
}

}  // namespace ledger
