#include "advice/consultation.h"

#include <algorithm>

#include "advice/ways.h"
#include "ruleset/diagnostic_errors.h"

namespace engine {

Consultation::Consultation(const Ruleset& ruleset, const std::vector<std::vector<std::string>>& row_ids,
                           Evaluation& evaluation, const BoundRecord& bound, OpenVariables variables)
    : ruleset_(ruleset),
      row_ids_(row_ids),
      evaluation_(evaluation),
      bound_(bound),
      variables_(std::move(variables)),
      taken_(bound.facts, variables_),
      symmetry_(*ruleset.model, bound, variables_) {}

Search Consultation::each_way(std::uint32_t decision, std::uint32_t budget,
                              const std::function<std::optional<std::uint32_t>(const Value&)>& use) {
  Search found = search(taken_, symmetry_, budget, [&]() -> std::optional<std::uint32_t> {
    const Value value = decide(decision);
    note_fired();
    if (taken_.met_unknown()) return Leaf::unknown;
    std::optional<std::uint32_t> outcome;
    if (evaluation_.has_error()) {
      add_errors(evaluation_.diagnostics(), errors_);
    } else {
      outcome = use(value);
    }
    if (!outcome) note_completion();
    return outcome;
  });
  found.exhausted = found.exhausted || taken_.has_calculated();
  return found;
}

Value Consultation::decide(std::uint32_t decision) {
  if (stale_) evaluation_.forget_decisions();
  evaluation_.assume(taken_);
  const Value value = evaluation_.decide(decision);
  // A record without open facts is worked through once: `Flags` and `Facts` then share what `Next step`
  // computed.
  stale_ = !variables_.variables.empty() || taken_.met_unknown();
  return value;
}

void Consultation::note_fired() {
  for (const Fired& fired : evaluation_.trace()) {
    const std::string& row = row_ids_[fired.table][fired.rule];
    if (!row.empty() && std::find(fired_.begin(), fired_.end(), row) == fired_.end()) fired_.push_back(row);
  }
}

/// Says in the errors under which completion of the open facts they arose.
void Consultation::note_completion() {
  const std::string met = text_of(taken_.box(), variables_, bound_.facts);
  if (met.empty()) return;
  for (Error& error : errors_) error.help += (error.help.empty() ? "met when " : "; met when ") + met;
}

}  // namespace engine
