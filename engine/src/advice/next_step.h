// What a ruleset's decisions `Next step` and `Flags` answer, read strictly.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/advice.h"
#include "engine/result.h"
#include "engine/ruleset.h"
#include "engine/value.h"

namespace engine {

/// A row that applies, and why.
struct Ground {
  std::string rule;
  std::string because;
};

struct NextStep {
  Action action{};
  std::optional<Interval> interval;
  std::string counted_from;  ///< `examination` unless the ruleset says otherwise.
  Date counted_from_date;    ///< The examination's date unless the ruleset says otherwise.
  std::optional<Window> due;
  std::vector<LaterStep> then;
  std::vector<Ground> grounds;  ///< The row that decides, then others that apply. Never empty once read.
  std::string ask_instead;
};

/// The same for the patient, by whatever rule: action, interval, anchor date, later steps, ruleset to ask.
bool agree(const NextStep& a, const NextStep& b);

/// Faults are added to `errors`: a key that is missing, of another type or unknown; a rule that is no row of
/// the ruleset; an interval that ends before it begins.
NextStep read_next_step(const Value& value, const Ruleset& ruleset, const Date& examined, Errors& errors);

std::vector<Flag> read_flags(const Value& value, const Ruleset& ruleset, Errors& errors);

}  // namespace engine
