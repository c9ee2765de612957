// What happens to the invented patients: every state that an examination and a recall can be in, with how
// many of 300 patients are in it.

#pragma once

#include <nlohmann/json.hpp>
#include <span>
#include <string>

#include "demo/dice.h"
#include "engine/calendar.h"

namespace cli {

/// What the endoscopist saw and cut.
enum class Findings {
  none,
  one_small_adenoma,
  several_with_a_large_one,
  six_adenomas,
  large_in_pieces,
  large_in_one_piece,
  poor_preparation,
  size_in_doubt,
  lynch_syndrome
};

/// When the laboratory answers.
enum class Pathology { with_the_record, in_a_week, first_pot_only, not_yet };

/// What the unit does after the answer.
enum class Fate {
  waits_for_signature,
  signed_only,
  vetted,
  invited,
  booked,
  did_not_attend,
  not_ready,
  came,
  closed,
  handed_over,
  decided_otherwise,
  died,
  moved_away
};

struct Scenario {
  const char* told;  ///< In a few words.
  int of_300;
  Findings findings;
  Pathology pathology;
  Fate fate;
  /// Days from today to where the next step should fall due (`counted_from_due`), or to the examination.
  int earliest_day, latest_day;
  bool counted_from_due;
  int youngest = 52, oldest = 70;  ///< Age at the examination.
};

std::span<const Scenario> scenarios();

/// Months after which the guideline asks for the next step: only to place the examination in time. What is
/// really due, the ruleset says.
int usual_months(Findings findings);

/// The `exam` of a record, all histology given. `day` is when it took place.
nlohmann::json examination(Findings findings, const std::string& id, const engine::Date& day, Dice& dice);

}  // namespace cli
