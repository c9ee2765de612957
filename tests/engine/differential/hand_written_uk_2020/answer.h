// The whole advice for one patient whose histology is known or taken.

#pragma once

#include <vector>

#include "engine/differential/hand_written_uk_2020/advice_writer.h"
#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing::by_hand {

/// All but the caller's id and the digest of the record.
void write_answer(const Record& record, const std::vector<Taken>& taken, const Texts& texts, Advice& advice);

}  // namespace testing::by_hand
