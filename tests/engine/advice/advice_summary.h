// The parts of an advice that tests compare, on one line. For tests only.

#pragma once

#include <string>

#include "engine/advice.h"

namespace engine::testing {

/// `settled: site check P2M to P6M, due 2026-05-10 to 2026-09-10, by T-01`.
std::string summary_of(const Advice& advice);

/// `no surveillance [when ...; or ...] | surveillance colonoscopy P3Y [when ...]`.
std::string possible_of(const Advice& advice);

/// The record text is read and asked on 1 April 2026. Fails the test when it cannot be read.
Advice ask(const std::shared_ptr<const Ruleset>& ruleset, const std::string& record);

}  // namespace engine::testing
