// What can be shown of a model's decision tables from their cells alone: gaps, overlaps, rules that never fire.
//
// Each column is parted at its own constants into finitely many classes of values that its cells cannot tell apart; every
// combination of classes is looked at. A table without findings has none for any values of its inputs, whatever the
// record. A finding may still be out of reach, because its inputs depend on each other (no polyps, yet a largest one):
// whether a record reaches it is for somebody who has records to ask (rulesets check tries made ones).

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/model.h"

namespace engine {

struct TableFinding {
  enum class Kind : std::uint8_t {
    gap,      ///< No rule matches, in a table that must answer.
    overlap,  ///< Two rules match, in a table that allows one.
    dead,     ///< The rule matches no combination of allowed values.
    masked    ///< Rules before it match wherever it does (FIRST).
  };
  Kind kind{};
  std::vector<std::uint32_t> rules;  ///< From 0: those that overlap, or the one that never fires.
  std::string when;  ///< Where, by the column headings: `adenomas is 0; largest is more than 10`. Empty for `dead`.
};
std::string_view text_of(TableFinding::Kind kind);

struct TableProof {
  std::uint32_t table = 0;  ///< Index into Model::tables().
  /// Column whose cells are not constants of one kind, so that nothing is shown of the table; empty when all was looked at.
  std::string stopped_by;
  std::uint64_t combinations = 0;  ///< Of classes that were looked at.
  std::vector<TableFinding> findings;
};

/// One for each table, in the order of Model::tables(). Pure; at most some seconds for the largest of tables.
std::vector<TableProof> prove_tables(const Model& model);

}  // namespace engine
