// One advice of each state, filled by hand. For tests only.

#pragma once

#include "engine/advice.h"

namespace engine::testing {

Advice settled_sample();
Advice awaiting_sample();
Advice depends_sample();
Advice outside_sample();
Advice refused_sample();

}  // namespace engine::testing
