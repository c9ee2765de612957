// Laws that the answers of any surveillance ruleset ought to keep, worked through completely over shapes of records.
//
// A shape is a record with facts left open: one kind of polyp, of any number, size, site, histology, removal. Two records
// that differ in one respect (one polyp more, a larger size, a worse grade) are advised under every completion of those
// facts at once; the search parts the completions where the rules do, so a law that is not broken is shown for the whole
// shape, unless the budget ended it. What breaks a law is shown as two concrete records.
// Guidelines break some of these laws on purpose: such places stand in the ruleset's SOURCES.md.

#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/ruleset.h"

namespace engine {

struct LawBreak {
  std::string rule, worse_rule;      ///< Rows that decided; `worse_rule` is empty for a law of one record.
  std::string answer, worse_answer;  ///< `surveillance colonoscopy in 3 years`.
  std::string record, worse_record;  ///< JSON, each as `advise` reads it.
};

struct LawReport {
  std::string law;    ///< `one more small adenoma never comes later`.
  std::string shape;  ///< `a first examination`, `an examination 3 years after one with 5 adenomas`.
  std::uint64_t runs = 0;
  bool complete = false;         ///< Every completion of the shape was answered for.
  std::vector<LawBreak> breaks;  ///< The first of each pair of rows.
};

/// `budget`: runs for each law and shape. Pure; a run is one or two evaluations of the next step.
std::vector<LawReport> prove_laws(const std::shared_ptr<const Ruleset>& ruleset, std::uint32_t budget);

}  // namespace engine
