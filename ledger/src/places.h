// Where a fault stands, in the two ways that the ledger knows.

#pragma once

#include <string>
#include <utility>

#include "engine/result.h"

namespace ledger {

inline engine::Place in_file(std::string file) {
  engine::Place place;
  place.source = std::move(file);
  return place;
}

/// A JSON path such as `specimens[0].lesions[1]`.
inline engine::Place at_path(std::string path, std::string source = {}) {
  engine::Place place = in_file(std::move(source));
  place.path = std::move(path);
  return place;
}

}  // namespace ledger
