// One record before one ruleset: decisions are asked under one completion of the open facts after another.

#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "advice/completions.h"
#include "advice/open_variables.h"
#include "advice/symmetry.h"
#include "advice/taken_facts.h"
#include "engine/model.h"
#include "engine/ruleset.h"
#include "record/bind.h"

namespace engine {

class Consultation {
 public:
  /// How many runs may be spent on one decision.
  struct Budgets {
    std::uint32_t next_step = 20'000;
    std::uint32_t beside = 2'000;           ///< `Flags` and `Facts`, which explain and do not decide.
    std::uint32_t beside_unanswered = 100;  ///< The same while there is no answer to explain.
  };

  /// `row_ids` by table and rule. The evaluation has its inputs set. Keeps references to its arguments.
  Consultation(const Ruleset& ruleset, const std::vector<std::vector<std::string>>& row_ids,
               Evaluation& evaluation, const BoundRecord& bound, OpenVariables variables);
  Consultation(const Consultation&) = delete;
  Consultation& operator=(const Consultation&) = delete;

  /// Calls `use` with the value of `decision` for every way it can go. `use` returns the number of the
  /// outcome, or nothing when the value is wrong, and has then added to errors(). It is not called for a
  /// value that rests on a fact with nothing to choose from: that outcome is Leaf::unknown.
  Search each_way(std::uint32_t decision, std::uint32_t budget,
                  const std::function<std::optional<std::uint32_t>(const Value&)>& use);

  const Ruleset& ruleset() const { return ruleset_; }
  const OpenVariables& variables() const { return variables_; }
  const Symmetry& symmetry() const { return symmetry_; }
  std::span<const OpenFact> facts() const { return bound_.facts; }
  /// By fact id, not 0 when any run read or tested it.
  std::span<const std::uint8_t> touched() const { return taken_.touched(); }
  /// A rule calculated with a size of which only some values were tried.
  bool has_calculated() const { return taken_.has_calculated(); }
  /// Row ids of all table rows that fired in any run, in order.
  const std::vector<std::string>& fired() const { return fired_; }
  /// What went wrong in a completion that can be; empty when nothing did.
  Errors& errors() { return errors_; }

 private:
  Value decide(std::uint32_t decision);
  void note_fired();
  void note_completion();

  const Ruleset& ruleset_;
  const std::vector<std::vector<std::string>>& row_ids_;
  Evaluation& evaluation_;
  const BoundRecord& bound_;
  OpenVariables variables_;
  TakenFacts taken_;
  Symmetry symmetry_;
  std::vector<std::string> fired_;
  Errors errors_;
  bool stale_ = false;  ///< The last run's values do not hold for the next.
};

}  // namespace engine
