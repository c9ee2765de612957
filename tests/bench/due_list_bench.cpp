// The due list of a large unit.

#include "bench/bench.h"
#include "bench/large_unit.h"
#include "ledger/lists.h"

namespace bench {

void measure_due_list(const ledger::Ledger& ledger) {
  const engine::Date today = unit_day;
  std::size_t rows = 0;
  double time = seconds([&] { rows = ledger::due(ledger, {}, today, {})->size(); });
  print("due list: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  const ledger::DueRange all{engine::Date{2020, 1, 1}, engine::Date{2040, 1, 1}};
  time = seconds([&] { rows = ledger::due(ledger, all, today, {})->size(); });
  print("due list of all: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  time = seconds([&] { rows = ledger::due(ledger, all, today, {0, 50})->size(); });
  print("  its first page: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  time = seconds([&] { (void)ledger::sweep(ledger, today); });
  print("sweep of all lists", 1000 * time, "ms");
}

}  // namespace bench
