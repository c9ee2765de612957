// Two records that share their open facts but one, ready to be advised side by side.

#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "advice/open_variables.h"
#include "engine/record.h"
#include "proof/shapes.h"
#include "record/bind.h"

namespace engine {

/// Facts and variables of both records: a fact of the second is the same variable as that of the first with
/// its path, but for the one that is apart.
struct PairedRecords {
  BoundRecord better, worse;  ///< Contexts only; their open facts count in `facts`.
  bool is_pair = false;
  std::vector<OpenFact> facts;
  OpenVariables variables;
  /// The variables of the fact that is apart; OpenVariables::none when none is.
  std::uint32_t apart = OpenVariables::none, apart_in_worse = OpenVariables::none;

  /// Values live in `arena`, texts in the records, which must outlive this.
  PairedRecords(const Record& first, const Record* second, const std::string& apart_path,
                std::span<const Decimal> thresholds, Arena& arena);

  /// The record of `shape` with its open facts as `values` has them, as JSON. `values` by fact id.
  std::string record_text(const LawShape& shape, bool worse_one, std::span<const Value> values) const;

 private:
  std::size_t first_of_worse_ = 0;  ///< Facts from here on are those of the second record.
};

}  // namespace engine
