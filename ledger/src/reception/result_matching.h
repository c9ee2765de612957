// Finds the lesions of an examination that a result speaks of. Pure: JSON in, JSON out.

#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/result.h"
#include "reception/result_format.h"

namespace ledger {

/// Histology for the lesion at position `index` of the examination.
struct MatchedLesion {
  std::size_t index = 0;
  std::string lesion, specimen;
  nlohmann::json histology;
  std::string path;  ///< Where it stands in the result.
};

/// Fails with `unknown_pot`, `unknown_lesion`, `other_pot`, `several_lesions`, `not_removed`, `named_twice`,
/// all of them in one run. `exam` is the `exam` of a record.
engine::Result<std::vector<MatchedLesion>> match(const ResultReport& report, const nlohmann::json& exam);

}  // namespace ledger
