// The rules of uk-2020 as a programmer writes them when there is no ruleset file: straight C++ over the
// record.
//
// The other hand against which the engine's answers are checked, and the yardstick of its speed. It says
// action, interval and row, and makes no sentences, flags or later steps. Source:
// rulesets/uk-2020/SOURCES.md, whose row ids it gives.

#pragma once

#include <optional>
#include <string_view>

#include "engine/advice.h"
#include "engine/record.h"

namespace testing {

struct Plan {
  engine::Action action{};
  std::optional<engine::Interval> interval;
  std::string_view rule;  ///< Static; `pathology-gate` while histology that can change the answer is awaited.
  friend bool operator==(const Plan&, const Plan&) = default;
};

/// Every fact but histology must be known. Histology that is not known is tried in every way that matters: no
/// value when it decides and can never be known. Each lesion without histology makes that fourteen times as
/// long.
std::optional<Plan> hand_written_uk_2020(const engine::Record& record);

}  // namespace testing
