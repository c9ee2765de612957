// usage: dueward_bench [OPEN_RECALLS] [PART...]     for example: dueward_bench 1000000 due
// Parts: feel, advice, rulesets, appends, chain, replay, due, revet. Without one: all of them. The last four
// work on a ledger of so many open recalls: twenty thousand real ones at most, and for the last two copies
// (many_recalls.h). With DUEWARD_BENCH_LEDGER=FILE the real ones are kept there, and taken from there the
// next time.

#include <algorithm>
#include <cstdlib>
#include <exception>
#include <vector>

#include "bench/bench.h"
#include "bench/large_unit.h"
#include "bench/many_recalls.h"
#include "bench/one_core.h"
#include "support/temporary_folder.h"

namespace {

/// More would take the better part of an hour.
constexpr int most_real = 20'000;

class Parts {
 public:
  Parts(int count, char** words) : words_(words, words + count) {}
  bool has(const char* part) const {
    return words_.empty() || std::find(words_.begin(), words_.end(), part) != words_.end();
  }

 private:
  std::vector<std::string> words_;
};

}  // namespace

int main(int count, char** words) {
  try {
    const int recalls = count > 1 ? std::stoi(words[1]) : 10'000;
    const Parts parts(std::max(0, count - 2), words + 2);
    const support::TemporaryFolder folder;
    {
      const bench::OneCore one_core;
      if (parts.has("feel")) bench::measure_feel();
      if (parts.has("advice")) bench::measure_advice();
      if (parts.has("rulesets")) bench::measure_rulesets();
    }
    if (parts.has("appends")) bench::measure_appends(folder.file("."));
    if (parts.has("chain") || parts.has("due") || parts.has("revet") || parts.has("replay")) {
      const char* kept = std::getenv("DUEWARD_BENCH_LEDGER");
      const ledger::Ledger ledger = bench::large_unit(kept != nullptr ? kept : folder.file("unit.ledger"),
                                                      std::min(recalls, most_real));
      if (parts.has("chain")) bench::measure_chain(folder.file("."), ledger);
      if (parts.has("replay")) bench::measure_replay(ledger);
      if (!parts.has("due") && !parts.has("revet")) return 0;
      const ledger::Ledger many = bench::many_recalls(ledger, folder.file("many.ledger"), recalls);
      if (parts.has("due")) bench::measure_due_list(many);
      if (parts.has("revet")) bench::measure_revet(many);
    }
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "error: %s\n", fault.what());
    return 1;
  }
}
