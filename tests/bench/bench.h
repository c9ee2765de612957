// Measures by hand: a name, how many, how long.

#pragma once

#include <algorithm>
#include <chrono>
#include <cstddef>
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

/// Nanoseconds that one call of `work` takes: the least of nine batches, so that what else the machine does
/// counts as little as it can.
template <class Work>
double nanoseconds(Work work) {
  constexpr double batch = 0.02;
  std::size_t calls = 1;
  const auto run = [&] {
    return seconds([&] {
      for (std::size_t i = 0; i < calls; ++i) work();
    });
  };
  while (run() < batch) calls *= 2;
  double least = run();
  for (int i = 0; i < 8; ++i) least = std::min(least, run());
  return least / static_cast<double>(calls) * 1e9;
}

/// Keeps the compiler from leaving out what makes `value`.
template <class T>
void keep(const T& value) {
  asm volatile("" : : "g"(&value) : "memory");
}

inline void print(const std::string& what, double value, const char* unit) {
  std::printf("%-52s %14.2f %s\n", what.c_str(), value, unit);
  std::fflush(stdout);
}

/// A filter and a decision table, compared with the npm package @bpmn-io/feelin when it can be had.
void measure_feel();
/// Record to advice, compared with rules written by hand in C++; and line of JSON to line of JSON.
void measure_advice();
/// Loading all rulesets; twelve lesions whose histology is awaited, under each.
void measure_rulesets();
void measure_appends(const std::string& folder);
void measure_due_list(const std::string& folder, int recalls);

}  // namespace bench
