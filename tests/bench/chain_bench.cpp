// The chain of a ledger followed from end to end, beside `openssl dgst -sha256` over a file of the bytes that
// are hashed, the other program's start included.

#include <sys/resource.h>

#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <thread>

#include "bench/bench.h"
#include "bench/memory.h"
#include "database/chain_check.h"
#include "ledger/chain.h"

namespace bench {

namespace {

constexpr double most_bytes = 500e6;

/// Writes the bytes of the first entries to `path`, and gives their number; `entries` says how many entries.
double write_bytes(const ledger::Ledger& ledger, const std::string& path, std::uint64_t& entries) {
  std::ofstream file(path, std::ios::binary);
  double bytes = 0;
  (void)ledger.each_entry(1, [&](const ledger::Entry& entry) {
    if (bytes > most_bytes) return;
    const std::string payload = ledger::payload_of(entry);
    const std::string before(1 + entry.previous.size() + sizeof entry.sequence,
                             '\0');  // its length is what counts
    file << before << payload;
    bytes += static_cast<double>(before.size() + payload.size());
    ++entries;
  });
  return bytes;
}

/// Wall and processor seconds, each the least of what was measured.
struct Least {
  double wall = 1e9, processor = 1e9;
  void add(double wall_time, double processor_time) {
    wall = std::min(wall, wall_time);
    processor = std::min(processor, processor_time);
  }
};

double time_of_children() {
  rusage usage{};
  getrusage(RUSAGE_CHILDREN, &usage);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

void run_openssl(const std::string& path, Least& time) {
  const double before = time_of_children();
  const double wall = seconds([&] {
    if (std::system(("openssl dgst -sha256 '" + path + "' > /dev/null").c_str()) != 0)
      throw std::runtime_error("openssl is needed for this part");
  });
  time.add(wall, time_of_children() - before);
}

void follow(const ledger::Ledger& ledger, std::uint32_t threads, Least& time) {
  const double before = processor_clock();
  const double wall = seconds([&] {
    const auto report = ledger::check_chain(ledger.path(), ledger.checkpoint()->size, {}, threads);
    if (!report || !report->faults.empty()) throw std::runtime_error("the chain is not sound");
  });
  time.add(wall, processor_clock() - before);
}

}  // namespace

void measure_chain(const std::string& folder, const ledger::Ledger& ledger) {
  std::uint64_t entries = 0;
  const std::string path = folder + "/bytes";
  const double bytes = write_bytes(ledger, path, entries);
  // Where the ledger is longer than the bytes that were written, only its share counts.
  const double share = static_cast<double>(entries) / static_cast<double>(ledger.checkpoint()->size);
  const std::uint32_t cores = std::max(1U, std::thread::hardware_concurrency());
  Least one, all, theirs;
  const PeakMemory memory;
  for (int i = 0; i < 5; ++i) {  // in turn, so that what else the machine does meets each
    follow(ledger, 1, one);
    follow(ledger, cores, all);
    run_openssl(path, theirs);
  }
  print("chain followed by all cores", bytes / (all.wall * share) / 1e6, "MB/s");
  print("  entries", static_cast<double>(entries) / (all.wall * share), "a second");
  print("  openssl dgst -sha256, the same bytes", bytes / theirs.wall / 1e6, "MB/s");
  print("  our speed against it", theirs.wall / (all.wall * share), "times");
  print("  by one core: our processor time against its", one.processor * share / theirs.processor, "times");
  print("  memory at most", memory.so_far(), "MB");
}

}  // namespace bench
