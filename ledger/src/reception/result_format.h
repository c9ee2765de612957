// Reads a result: histology for named pots. The contract is docs/result-format.md.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/result.h"

namespace ledger {

/// Histology of one lesion, or of the only lesion in a pot.
struct LesionReport {
  std::string lesion;        ///< Empty: the only lesion in the pot.
  nlohmann::json histology;  ///< An object; its terms are checked with the record it joins.
  std::string path;          ///< `specimens[0].lesions[1]`
};

/// Of one pot, by its id or its accession number.
struct PotReport {
  std::string id, accession;  ///< One of them is empty.
  std::vector<LesionReport> lesions;
  std::string path;  ///< `specimens[0]`
};

struct ResultReport {
  std::string exam, accession;  ///< One of them is empty.
  std::vector<PotReport> pots;
  std::string reported;  ///< ISO 8601 date.
  std::string reporter;  ///< May be empty.
};

/// Strict: all faults in one run, each with its JSON path.
engine::Result<ResultReport> read_result(std::string_view text);

}  // namespace ledger
