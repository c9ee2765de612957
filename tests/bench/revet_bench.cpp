// All open recalls of a large unit, which follows us-2020, under uk-2020, and all its answers computed
// again: each with one thread and with two.

#include <stdexcept>

#include "bench/bench.h"
#include "bench/large_unit.h"
#include "bench/memory.h"
#include "ledger/audit.h"
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

Run answered_again(const ledger::Ledger& ledger, std::uint32_t threads) {
  const PeakMemory memory;
  Run run;
  const double start = processor_clock();
  run.wall = seconds([&] {
    const auto report = ledger::replay(ledger, threads);
    if (!report || !report->faults.empty()) throw std::runtime_error("replay");
    run.read = report->advices;
    run.memory = memory.so_far();
  });
  run.processor = processor_clock() - start;
  return run;
}

void print_two_threads(const Run& one, const Run& two) {
  print("  in a second of one core", static_cast<double>(one.read) / one.processor, "");
  print("  two threads: time on the wall against one", two.wall / one.wall, "times");
  print("  two threads: processor time against one", two.processor / one.processor, "times");
  print("  memory at most, two threads", two.memory, "MB");
}

}  // namespace

void measure_revet(const ledger::Ledger& ledger) {
  const ledger::Protocol to = shipped("uk-2020");
  const Run one = revet(ledger, to, 1), two = revet(ledger, to, 2);
  print("revetted", static_cast<double>(one.read), "");
  print("  of these would move", static_cast<double>(one.moved), "");
  print_two_threads(one, two);
}

void measure_replay(const ledger::Ledger& ledger) {
  const Run one = answered_again(ledger, 1), two = answered_again(ledger, 2);
  print("answers replayed", static_cast<double>(one.read), "");
  print_two_threads(one, two);
}

}  // namespace bench
