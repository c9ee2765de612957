// The due list of a large unit.

#include <stdexcept>

#include "bench/bench.h"
#include "ledger/lists.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "support/fixed_clock.h"
#include "support/records.h"
#include "support/small_protocol.h"

namespace bench {

namespace {

constexpr int batch = 1000;

void open_recalls(ledger::Ledger& ledger, int recalls) {
  const support::FixedClock clock("2026-03-20");
  const ledger::Author author{"bench", clock};
  const ledger::Protocol protocol = support::small_protocol();
  const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
  for (int done = 0; done < recalls; done += batch) {
    std::string lines;
    for (int i = done; i < std::min(done + batch, recalls); ++i) {
      const std::string number = std::to_string(1'000'000 + i);
      // Examined over the three years up to today: due from today to three years ahead.
      const auto day = engine::date_from_days(engine::days_since_epoch({2023, 3, 20}) + i % 1090);
      lines += support::a_record("H" + number, "E" + number, engine::text_of(*day), {lesion}).dump() + "\n";
    }
    if (!ledger::record(ledger, author, protocol, lines, "bench.jsonl")) throw std::runtime_error("record");
    for (int i = done; i < std::min(done + batch, recalls); ++i) {
      if (!ledger::sign(ledger, author, "E" + std::to_string(1'000'000 + i), "Dr Invented", 0)) {
        throw std::runtime_error("sign");
      }
    }
  }
}

}  // namespace

void measure_due_list(const std::string& folder, int recalls) {
  auto ledger = ledger::Ledger::create(folder + "/due.ledger");
  if (!ledger) throw std::runtime_error("no ledger");
  const double filling = seconds([&] { open_recalls(*ledger, recalls); });
  print("open recalls made", recalls, "");
  print("  recorded and signed", recalls / filling, "a second");

  const engine::Date today{2026, 3, 20};
  std::size_t rows = 0;
  double time = seconds([&] { rows = ledger::due(*ledger, {}, today, {})->size(); });
  print("due list: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  const ledger::DueRange all{engine::Date{2020, 1, 1}, engine::Date{2040, 1, 1}};
  time = seconds([&] { rows = ledger::due(*ledger, all, today, {})->size(); });
  print("due list of all: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  time = seconds([&] { rows = ledger::due(*ledger, all, today, {0, 50})->size(); });
  print("  its first page: " + std::to_string(rows) + " rows", 1000 * time, "ms");
  time = seconds([&] { (void)ledger::sweep(*ledger, today); });
  print("sweep of all lists", 1000 * time, "ms");
}

}  // namespace bench
