// A person's way through the unit as the measures look at it: plain facts, apart from where they are kept.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/record.h"
#include "late_clock.h"
#include "ledger/lists.h"
#include "ledger/patients.h"

namespace ledger {

struct CourseExamination {
  ExaminationLine line;
  engine::Date date;
  engine::Examination exam;  ///< With the histology that came as results.
  std::vector<engine::Condition> conditions;
  std::string outcome;                    ///< `signed`, `overridden`, or empty.
  std::string action, ruleset, rule;      ///< Of the signature.
  std::optional<engine::Date> signed_on;  ///< The first signature after the last report.
  std::optional<engine::Date> due, due_to;
  std::optional<engine::Date> sent, reported;  ///< First pot out; last report in.
  std::string reporter;
};

struct CourseRecall {
  std::string exam, state, answered_by;
  engine::Date due, due_to, late_on;
  std::string id;
  std::vector<NotReady> not_ready;
};

struct Course {
  PersonLine person;
  std::vector<CourseExamination> examinations;  ///< Oldest first.
  std::vector<CourseRecall> recalls;

  const CourseExamination* examination(const std::string& exam) const {
    for (const CourseExamination& one : examinations) {
      if (one.line.exam == exam) return &one;
    }
    return nullptr;
  }
};

}  // namespace ledger
