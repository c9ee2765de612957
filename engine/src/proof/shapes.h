// The shapes of records over which laws are worked through: JSON with facts left out or bounded.

#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

namespace engine {

/// A law says that `worse` never comes later than `better`, or, without `worse`, that `better` never waits
/// long.
struct LawShape {
  std::string law, shape;
  nlohmann::json better;
  std::optional<nlohmann::json> worse;
  /// JSON path of the fact that is another in the two records, the worse at least as large; empty when none
  /// is.
  std::string apart;
};

/// Every law over every shape.
std::vector<LawShape> law_shapes();

}  // namespace engine
