// Looks examinations, their versions, pots and histology up.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "database/transaction.h"

namespace ledger {

struct KnownExamination {
  std::string exam, person, date;
  std::uint64_t recorded = 0;           ///< The entry with its record as last given.
  std::optional<std::uint64_t> advice;  ///< The `advice given` that stands.
  std::string advice_state, outcome;
  std::int64_t risk = 0;
};

std::optional<KnownExamination> find_examination(Transaction& transaction, const std::string& exam);

/// The entry that last gave it an outcome: `advice signed` or `advice overridden`. It has one.
std::uint64_t signature_of(Transaction& transaction, const std::string& exam);

/// Oldest first; those of one day by their ids.
std::vector<KnownExamination> examinations_of(Transaction& transaction, const std::string& person);

/// The entry that recorded examination `exam` with this content.
std::optional<std::uint64_t> version_of(Transaction& transaction, const std::string& exam,
                                        const std::string& content);

/// The entries with the records of an examination that others replaced since; the last one first.
std::vector<std::uint64_t> replaced_versions_of(Transaction& transaction,
                                                const KnownExamination& examination);

/// Histology that came as a result.
struct EnteredHistology {
  std::string lesion;
  nlohmann::json histology;
  std::uint64_t entry = 0;
};
std::vector<EnteredHistology> histologies_of(Transaction& transaction, const std::string& exam);

/// The examinations that have a pot with this accession number.
std::vector<std::string> examinations_with(Transaction& transaction, const std::string& accession);

}  // namespace ledger
