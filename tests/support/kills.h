// How often a program is killed at a random moment: in the ordinary tests a part of it, by hand a thousand
// times in all (DEVELOPERS.md).

#pragma once

#include <algorithm>
#include <cstdlib>
#include <string>

namespace support {

/// `per_thousand` of the kills that DUEWARD_KILLS asks for in all tests together, or of the usual number.
inline int kills(int per_thousand) {
  constexpr int usual = 300;
  const char* asked = std::getenv("DUEWARD_KILLS");
  const int all = asked == nullptr ? usual : std::stoi(asked);
  return std::max(10, all * per_thousand / 1000);
}

}  // namespace support
