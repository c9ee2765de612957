// The most memory that this program held at once, in a stretch of its work. Source: proc(5), `clear_refs` 5
// and `VmHWM`.

#pragma once

#include <fstream>
#include <string>

namespace bench {

class PeakMemory {
 public:
  /// From now on.
  PeakMemory() { std::ofstream("/proc/self/clear_refs") << "5"; }
  /// In megabytes.
  double so_far() const {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
      if (word != "VmHWM:") continue;
      double kilobytes = 0;
      status >> kilobytes;
      return kilobytes / 1000;
    }
    return 0;
  }
};

}  // namespace bench
