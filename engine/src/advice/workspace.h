// What an Adviser keeps from one record to the next.

#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "advice/consultation.h"
#include "engine/advice.h"
#include "record/bind.h"
#include "ruleset/row_collector.h"

namespace engine {

struct Adviser::Workspace {
  explicit Workspace(std::shared_ptr<const Ruleset> used)
      : ruleset(std::move(used)),
        evaluation(ruleset->model),
        row_ids(engine::row_ids(ruleset->model->tables())) {
    const auto input = [&](std::string_view name) {
      return ruleset->model->find(name, ElementView::Kind::input);
    };
    patient = input("patient");
    exam = input("exam");
    previous = input("previous");
    setting = input("setting");
  }

  void hand_over(const Record& record, const Date& today) {
    evaluation.reset();
    evaluation.set_now({today, {}});
    bind(record, evaluation.arena(), bound);
    if (patient) evaluation.set_input(*patient, bound.patient);
    if (exam) evaluation.set_input(*exam, bound.exam);
    if (previous) evaluation.set_input(*previous, bound.previous);
    if (setting) evaluation.set_input(*setting, bound.setting);
  }

  std::shared_ptr<const Ruleset> ruleset;
  Evaluation evaluation;
  BoundRecord bound;
  std::vector<std::vector<std::string>> row_ids;
  std::optional<std::uint32_t> patient, exam, previous, setting;
};

}  // namespace engine
