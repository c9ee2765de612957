#include "engine/differential/hand_written_uk_2020/judged_steps.h"

#include <algorithm>

namespace testing::by_hand {

JudgedSteps::JudgedSteps(const Patient2020& patient) {
  for (const Step& step : patient.steps) {
    if (step.limited) {
      const std::int64_t age = patient.age_on(step.due);
      if (!age_near_limit && age >= 74 && age <= 76) age_near_limit = age;
      if (const auto stop = patient.stopped_by(step)) {
        stopped.push_back({&step, *stop, age});
        continue;
      }
    }
    must_look = must_look || !step.limited;
    const auto later = [](const Step* one, const Step* other) { return one->due < other->due; };
    open.insert(std::upper_bound(open.begin(), open.end(), &step, later), &step);
  }
}

}  // namespace testing::by_hand
