// The write-ahead log is cut or garbled at every sector, as a disk leaves it that had promised more than it
// did: the ledger opens with the longest sound beginning, and a checkpoint kept elsewhere tells that the end
// is gone.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <set>

#include "support/records.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

constexpr std::size_t sector = 512;

/// A ledger as it lies on the disk while it is in use: the file, and a log with entries that are only there.
struct InUse {
  TemporaryLedger unit;
  std::vector<ledger::Entry> entries;
  std::string content, log;

  InUse() {
    unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    for (int i = 0; i < 4; ++i) value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
    unit.record(a_record("H2", "E2", "2026-03-11", {a_lesion("L1", nullptr)}));
    entries = unit.entries();
    content = content_of(unit.path);
    log = content_of(unit.path + "-wal");
    REQUIRE(log.size() > 20 * sector);
  }
  static std::string content_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
};

/// What opens of the ledger with this log: a beginning of the entries, sound, and found to be cut off by a
/// checkpoint.
std::uint64_t size_with(const InUse& use, const std::string& log) {
  TemporaryFolder folder;
  const std::string path = folder.file("unit.ledger");
  std::ofstream(path, std::ios::binary) << use.content;
  std::ofstream(path + "-wal", std::ios::binary) << log;
  const auto opened = value_of(Ledger::open(path, Ledger::Access::write));
  const ledger::Checkpoint head = value_of(opened.checkpoint());
  REQUIRE(head.size <= use.entries.size());
  if (head.size > 0) CHECK(head.head == use.entries[head.size - 1].hash);
  CHECK(faults_of(path).empty());
  const ledger::Checkpoint kept{use.entries.size(), use.entries.back().hash};
  const auto report = value_of(ledger::verify(path, kept));
  CHECK(report.faults.empty() == (head == kept));
  if (head != kept) {
    CHECK(report.faults.front().where == "checkpoint");
    CHECK_THAT(report.faults.front().what, Catch::Matchers::EndsWith("entries were cut off"));
  }
  return head.size;
}

}  // namespace

TEST_CASE("a log that is cut anywhere leaves the longest sound beginning, and a checkpoint tells of the rest",
          "[faults][slow]") {
  const InUse use;
  CHECK(size_with(use, use.log) == use.entries.size());
  std::uint64_t before = 0;
  std::set<std::uint64_t> sizes;
  for (std::size_t length = sector; length < use.log.size(); length += sector) {
    INFO(length << " of " << use.log.size() << " bytes");
    const std::uint64_t size = size_with(use, use.log.substr(0, length));
    CHECK(size >= before);  // more of the log is never less of the ledger
    before = size;
    sizes.insert(size);
  }
  CHECK(sizes.size() > 3);
  CHECK(before < use.entries.size());
}

TEST_CASE("a log that is garbled in any sector leaves what was written before it", "[faults][slow]") {
  const InUse use;
  std::uint64_t before = 0;
  std::set<std::uint64_t> sizes;
  for (std::size_t at = 0; at + sector <= use.log.size(); at += sector) {
    INFO("sector at byte " << at);
    std::string garbled = use.log;
    for (std::size_t i = at; i < at + sector; ++i) garbled[i] = static_cast<char>(garbled[i] ^ 0x55);
    const std::uint64_t size = size_with(use, garbled);
    CHECK(size >= before);
    before = size;
    sizes.insert(size);
  }
  CHECK(sizes.size() > 3);
  CHECK(before < use.entries.size());
}
