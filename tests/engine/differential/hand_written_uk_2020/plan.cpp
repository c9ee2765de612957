// Action, interval and row, and nothing besides.

#include <vector>

#include "engine/differential/hand_written_uk_2020.h"
#include "engine/differential/hand_written_uk_2020/open_histology.h"
#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing {

namespace {

using namespace by_hand;

Plan plan_without_a_step(const Patient2020& patient) {
  const Row row = patient.low_risk_row();
  if (row == Row::young) return {Action::individualise, Interval{{60}, {120}}, id_of(row)};
  const bool screened = patient.age <= 75 && row != Row::short_life;
  return {screened ? Action::return_to_screening : Action::no_surveillance, {}, id_of(row)};
}

Plan plan_from_steps(const Patient2020& patient) {
  const Step* next = nullptr;
  bool must_look = false;
  std::optional<Row> stopped;
  for (const Step& step : patient.steps) {
    if (const auto stop = patient.stopped_by(step)) {
      if (!stopped) stopped = stop;
      continue;
    }
    must_look = must_look || !step.limited;
    if (!next || step.due < next->due) next = &step;
  }
  if (!must_look) {
    if (const auto missing = patient.missing_history()) return {Action::individualise, {}, id_of(*missing)};
  }
  if (next) return {next->action, Interval{next->from, next->to}, id_of(next->row)};
  if (stopped) return {Action::no_surveillance, {}, id_of(*stopped)};
  return plan_without_a_step(patient);
}

Plan plan_of(const Record& record, const std::vector<Taken>& taken) {
  Patient2020 patient(record, taken);
  patient.read_history();
  if (const auto outside = patient.out_of_scope()) return {Action::refer, {}, id_of(*outside)};
  if (patient.has_cancer_without_resection()) return {Action::refer, {}, id_of(Row::cancer)};
  patient.find_baseline();
  if (const Shortcomings again = patient.look_again(); !again.empty())
    return {Action::repeat_examination, {}, id_of(again.front())};
  patient.age = patient.age_on(patient.exam.date);
  if (patient.age < 18) return {Action::refer, {}, id_of(Row::under_18)};
  patient.judge();
  return plan_from_steps(patient);
}

// --- histology that is not known --------------------------------------------------------------------------

/// The plan when it is the same whatever the histology of `taken` from `next` on.
std::optional<Plan> common_plan(const Record& record, std::vector<Taken>& taken, std::size_t next) {
  if (next == taken.size()) return plan_of(record, taken);
  std::optional<Plan> common;
  for (const Histology& kind : kinds_for_a_plan()) {
    taken[next].histology = &kind;
    const std::optional<Plan> plan = common_plan(record, taken, next + 1);
    if (!plan || (common && *common != *plan)) return std::nullopt;
    common = plan;
  }
  return common;
}

}  // namespace

std::optional<Plan> hand_written_uk_2020(const Record& record) {
  std::vector<Taken> open = without_histology(record);
  const std::optional<Plan> plan = common_plan(record, open, 0);
  if (!plan && record.exam.awaits_histology()) return Plan{Action::await_pathology, {}, "pathology-gate"};
  return plan;
}

}  // namespace testing
