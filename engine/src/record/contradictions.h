// Facts of one record that cannot both be true.

#pragma once

#include "engine/record.h"
#include "record/faults.h"

namespace engine {

/// Notes every contradiction in `record`, naming both facts. Parts that could not be read contradict nothing.
void find_contradictions(const Record& record, Faults& faults);

}  // namespace engine
