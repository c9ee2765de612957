// How dates and intervals are said to a person.

#pragma once

#include <string>

#include "engine/advice.h"

namespace engine {

/// `10 March 2029`.
std::string in_words(const Date& date);

/// `3 years`, `2 to 6 months`, `12 to 18 months`, `no time`.
std::string in_words(const Interval& interval);

}  // namespace engine
