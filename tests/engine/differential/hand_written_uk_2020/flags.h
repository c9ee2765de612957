// What a clinician should see beside the answer.

#pragma once

#include "engine/differential/hand_written_uk_2020/advice_writer.h"
#include "engine/differential/hand_written_uk_2020/judged_steps.h"

namespace testing::by_hand {

void write_flags(const Patient2020& patient, const JudgedSteps& steps, AdviceWriter& writer);

}  // namespace testing::by_hand
