// Measures by hand: a name, how many, how long.

#pragma once

#include <chrono>
#include <cstdio>
#include <string>

namespace bench {

/// Seconds that `work` takes.
template <class Work>
double seconds(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

inline void print(const std::string& what, double value, const char* unit) {
  std::printf("%-52s %14.2f %s\n", what.c_str(), value, unit);
  std::fflush(stdout);
}

void measure_advice();
void measure_appends(const std::string& folder);
void measure_due_list(const std::string& folder, int recalls);

}  // namespace bench
