// usage: dueward_bench [OPEN_RECALLS]     for example: dueward_bench 100000

#include <exception>

#include "bench/bench.h"
#include "bench/one_core.h"
#include "support/temporary_folder.h"

int main(int count, char** words) {
  try {
    const int recalls = count > 1 ? std::stoi(words[1]) : 10'000;
    const support::TemporaryFolder folder;
    {
      const bench::OneCore one_core;
      bench::measure_feel();
      bench::measure_advice();
      bench::measure_rulesets();
    }
    bench::measure_appends(folder.file("."));
    bench::measure_due_list(folder.file("."), recalls);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "error: %s\n", fault.what());
    return 1;
  }
}
