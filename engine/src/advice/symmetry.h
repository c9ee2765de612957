// Lesions of one examination that the record tells apart by nothing but their place in the list: swapping
// what their open facts are taken to be gives the same answer, so only one of the two needs a run.
//
// It rests on what docs/ruleset-format.md asks of a ruleset: that it treats lesions alike wherever they
// stand. A ruleset that reads a lesion's `id` or `specimen`, or takes a lesion by its number, tells them
// apart: then there is no symmetry.

#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "advice/box.h"
#include "advice/open_variables.h"
#include "engine/model.h"
#include "engine/value.h"
#include "record/bind.h"

namespace engine {

class Symmetry {
 public:
  /// No two variables mirror each other.
  Symmetry() = default;
  /// From the lesions of `exam` and of each examination of `previous`, as long as `model` reads no label of a
  /// lesion.
  Symmetry(const Model& model, const BoundRecord& bound, const OpenVariables& variables);

  /// The variables of one lesion, in the same order for each lesion of a group.
  using Block = std::vector<std::uint32_t>;
  struct Where {
    const std::vector<Block>* group = nullptr;  ///< Null: the variable mirrors no other.
    std::size_t block = 0, index = 0;
  };
  Where find(std::uint32_t variable) const;
  /// The one of all mirror images of `box` that stands for them: its lesions are in a fixed order.
  Box standard(const Box& box) const;
  /// `box` with what it says of the lesions `a` and `b` exchanged.
  static Box swapped(const Box& box, const Block& a, const Block& b);
  bool empty() const { return groups_.empty(); }
  const std::vector<std::vector<Block>>& groups() const { return groups_; }

 private:
  void add_lesions(const Value& exam, std::span<const OpenFact> facts, const OpenVariables& variables);

  std::vector<std::vector<Block>> groups_;  ///< Two lesions or more each, all alike.
  struct Place {
    std::uint32_t group = UINT32_MAX, block = 0, index = 0;
  };
  std::vector<Place> places_;  ///< By variable.
};

}  // namespace engine
