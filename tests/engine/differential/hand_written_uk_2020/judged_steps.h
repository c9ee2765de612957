// The stop rules applied to the steps of a patient.

#pragma once

#include <optional>
#include <vector>

#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing::by_hand {

struct StoppedStep {
  const Step* step;
  Row stop;
  std::int64_t age_when_due;
};

struct JudgedSteps {
  explicit JudgedSteps(const Patient2020& patient);

  std::vector<const Step*> open;  ///< The earliest first.
  std::vector<StoppedStep> stopped;
  std::optional<std::int64_t> age_near_limit;  ///< On the day a step falls due, within a year of 75.
  bool must_look = false;                      ///< A step is open that nothing can stop.
};

}  // namespace testing::by_hand
