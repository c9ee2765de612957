// Histology that is not known: the lesions, and what is tried in its place.

#pragma once

#include <vector>

#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing::by_hand {

bool is_known(const Histology& histology);

/// Lesions whose histology is not known, those of the present examination first; nothing is taken for it yet.
std::vector<Taken> without_histology(const Record& record);

/// One of each kind that action, interval and row tell apart.
const std::vector<Histology>& kinds_for_a_plan();
/// One of each kind that any sentence, flag or number tells apart. The first is what the engine tries first.
const std::vector<Histology>& kinds_for_an_answer();

}  // namespace testing::by_hand
