// Measures by hand: a name, how many, how long.

#pragma once

#include <time.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <cstdio>
#include <string>

#include "ledger/ledger.h"

namespace bench {

/// Seconds of the clock on the wall, and seconds that this program has computed on all cores, from some
/// moment on.
inline double wall_clock() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}
inline double processor_clock() {
  timespec time{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) / 1e9;
}

/// Seconds that `work` takes by `clock`.
template <class Work>
double seconds_by(double (*clock)(), Work work) {
  const double start = clock();
  work();
  return clock() - start;
}
template <class Work>
double seconds(Work work) {
  return seconds_by(wall_clock, work);
}
/// For what computes: what else the machine does counts little.
template <class Work>
double cpu_seconds(Work work) {
  return seconds_by(processor_clock, work);
}

/// Nanoseconds that one call of `work` takes: the least of nine batches, so that what else the machine does
/// counts as little as it can.
template <class Work>
double nanoseconds_by(double (*clock)(), Work work) {
  constexpr double batch = 0.02;
  std::size_t calls = 1;
  const auto run = [&] {
    return seconds_by(clock, [&] {
      for (std::size_t i = 0; i < calls; ++i) work();
    });
  };
  while (run() < batch) calls *= 2;
  double least = run();
  for (int i = 0; i < 8; ++i) least = std::min(least, run());
  return least / static_cast<double>(calls) * 1e9;
}
template <class Work>
double nanoseconds(Work work) {
  return nanoseconds_by(wall_clock, work);
}
template <class Work>
double cpu_nanoseconds(Work work) {
  return nanoseconds_by(processor_clock, work);
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
/// Records into the ledger, each by itself and as a file of many, beside bare SQLite.
void measure_appends(const std::string& folder);
/// The chain, beside `openssl dgst -sha256`.
void measure_chain(const std::string& folder, const ledger::Ledger& ledger);
/// The lists of its open recalls, beside a bare SQL query.
void measure_due_list(const ledger::Ledger& ledger);
/// All open recalls under another ruleset.
void measure_revet(const ledger::Ledger& ledger);
/// All answers computed again.
void measure_replay(const ledger::Ledger& ledger);

}  // namespace bench
