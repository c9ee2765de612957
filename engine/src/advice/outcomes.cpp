#include "advice/outcomes.h"

#include <algorithm>

namespace engine {

namespace {

void add_rows(Outcome& outcome, const NextStep& step) {
  ++outcome.runs;
  for (const Ground& ground : step.grounds) {
    const auto at = std::find_if(outcome.rows.begin(), outcome.rows.end(),
                                 [&](const Outcome::Applies& row) { return row.ground.rule == ground.rule; });
    if (at == outcome.rows.end()) {
      outcome.rows.push_back({ground, 1, false});
    } else {
      ++at->runs;
      at->reworded = at->reworded || at->ground.because != ground.because;
    }
  }
}

std::uint32_t add_outcome(std::vector<Outcome>& all, NextStep step) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Outcome& outcome) {
    return agree(outcome.step, step) && outcome.step.grounds.front().rule == step.grounds.front().rule;
  });
  if (at != all.end()) {
    add_rows(*at, step);
    return static_cast<std::uint32_t>(at - all.begin());
  }
  all.emplace_back();
  add_rows(all.back(), step);
  all.back().step = std::move(step);
  return static_cast<std::uint32_t>(all.size() - 1);
}

std::uint32_t class_of(const std::vector<Outcome>& all, std::uint32_t outcome) {
  std::uint32_t first = 0;
  while (!agree(all[first].step, all[outcome].step)) ++first;
  return first;
}

}  // namespace

bool Outcomes::has_unknown() const {
  return std::any_of(search.leaves.begin(), search.leaves.end(),
                     [](const Leaf& leaf) { return leaf.outcome == Leaf::unknown; });
}

bool Outcomes::all_agree() const {
  const auto is_first = [](std::uint32_t of_class) { return of_class == 0; };
  return !search.exhausted && !search.stopped && !all.empty() && !has_unknown() &&
         std::all_of(classes.begin(), classes.end(), is_first);
}

Outcomes find_outcomes(Consultation& consultation, const Date& examined, std::uint32_t budget) {
  Outcomes found;
  const Ruleset& ruleset = consultation.ruleset();
  const auto use = [&](const Value& value) -> std::optional<std::uint32_t> {
    NextStep step = read_next_step(value, ruleset, examined, consultation.errors());
    if (!consultation.errors().empty()) return std::nullopt;
    return add_outcome(found.all, std::move(step));
  };
  found.search = consultation.each_way(ruleset.next_step, budget, use);
  for (std::uint32_t i = 0; i < found.all.size(); ++i) found.classes.push_back(class_of(found.all, i));
  return found;
}

std::vector<Reason> reasons_of(const Outcomes& outcomes, const Ruleset& ruleset) {
  std::uint32_t runs = 0;
  for (const Outcome& outcome : outcomes.all) runs += outcome.runs;

  std::vector<Outcome::Applies> rows;
  for (const Outcome& outcome : outcomes.all) {
    for (const Outcome::Applies& row : outcome.rows) {
      const auto at = std::find_if(rows.begin(), rows.end(), [&](const Outcome::Applies& other) {
        return other.ground.rule == row.ground.rule;
      });
      if (at == rows.end()) {
        rows.push_back(row);
      } else {
        at->runs += row.runs;
        at->reworded = at->reworded || row.reworded || at->ground.because != row.ground.because;
      }
    }
  }

  std::vector<Reason> reasons;
  for (const auto& [ground, applied, reworded] : rows) {
    const RulesetRow& row = *ruleset.row(ground.rule);  // read_next_step() has looked it up
    const bool always = applied == runs && !reworded;
    reasons.push_back({ground.rule,
                       (always ? "" : "depending on what is not known, for instance: ") + ground.because,
                       row.source, row.evidence});
  }
  return reasons;
}

}  // namespace engine
