// All open recalls of a large unit, which follows us-2020, under uk-2020: with one thread and with two.

#include <stdexcept>

#include "bench/bench.h"
#include "bench/large_unit.h"
#include "bench/memory.h"
#include "ledger/revet.h"

namespace bench {

namespace {

struct Run {
  double wall = 0, processor = 0, memory = 0;
  std::uint64_t read = 0, moved = 0;
};

Run revet(const ledger::Ledger& ledger, const ledger::Protocol& to, std::uint32_t threads) {
  const PeakMemory memory;
  Run run;
  const double start = processor_clock();
  run.wall = seconds([&] {
    const auto found = ledger::revet(ledger, to, unit_day, threads);
    if (!found) throw std::runtime_error("revet");
    run.read = found->read();
    run.moved = found->moved.size();
    run.memory = memory.so_far();
  });
  run.processor = processor_clock() - start;
  return run;
}

}  // namespace

void measure_revet(const ledger::Ledger& ledger) {
  const ledger::Protocol to = shipped("uk-2020");
  const Run one = revet(ledger, to, 1), two = revet(ledger, to, 2);
  print("revetted", static_cast<double>(one.read), "");
  print("  of these would move", static_cast<double>(one.moved), "");
  print("  in a second of one core", static_cast<double>(one.read) / one.processor, "");
  print("  two threads: time on the wall against one", two.wall / one.wall, "times");
  print("  two threads: processor time against one", two.processor / one.processor, "times");
  print("  memory at most, two threads", two.memory, "MB");
}

}  // namespace bench
