#include <atomic>
#include <catch2/catch.hpp>
#include <thread>

#include "ledger/audit.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"

using namespace support;

TEST_CASE("every answer comes out again, byte for byte", "[replay]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2020-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  unit.record(a_record("H1", "E2", "2026-03-10", {}));
  const auto report = value_of(ledger::replay(unit.ledger));
  for (const auto& fault : report.faults) UNSCOPED_INFO(fault.entry << ": " << fault.what);
  CHECK(report.faults.empty());
  CHECK(report.advices == 3);
}

TEST_CASE("an answer that was altered does not", "[replay]") {
  TemporaryLedger unit;
  const auto receipt = unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  run_sql(unit.path,
          "DROP TRIGGER entries_are_never_changed; UPDATE entries SET body = replace(body, '2029-03-10', "
          "'2031-03-10')");
  const auto report = value_of(ledger::replay(unit.ledger));
  REQUIRE(report.faults.size() == 1);
  CHECK(report.faults[0].entry == receipt.advice);
  CHECK(report.faults[0].where == "replay");
}

namespace {

/// Lines with so many records of people whose numbers begin with `who`.
std::string records(const std::string& who, int count) {
  std::string lines;
  for (int i = 0; i < count; ++i) {
    const std::string number = who + std::to_string(i);
    lines +=
        a_record("H" + number, "E" + number, "2026-03-10", {a_lesion("L1", tubular_adenoma())}).dump() + "\n";
  }
  return lines;
}

}  // namespace

TEST_CASE("in a ledger that several read beside each other, each altered answer is named, in order",
          "[replay]") {
  TemporaryLedger unit;
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, records("", 1000), "test.jsonl"));
  REQUIRE(value_of(unit.ledger.checkpoint()).size > 3000);  // a part for each of three (spans.h)
  run_sql(unit.path,
          "DROP TRIGGER entries_are_never_changed; UPDATE entries SET body = replace(body, '2029-03-10',"
          " '2031-03-10') WHERE sequence % 7 = 0");
  const std::string altered =
      ask_sql(unit.path,
              "SELECT group_concat(sequence) FROM (SELECT sequence FROM entries WHERE kind = 'advice given'"
              " AND sequence % 7 = 0 ORDER BY sequence)");
  for (const std::uint32_t threads : {1U, 2U, 3U}) {
    const auto report = value_of(ledger::replay(unit.ledger, threads));
    std::string named;
    for (const auto& fault : report.faults) named += (named.empty() ? "" : ",") + std::to_string(fault.entry);
    INFO(threads << " threads");
    CHECK(report.advices == 1000);
    CHECK(report.faults.size() > 100);
    CHECK(named == altered);
  }
}

TEST_CASE("what is written while answers come out again is left for the next time", "[replay]") {
  TemporaryLedger unit;
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, records("A", 1000), "test.jsonl"));
  auto beside = value_of(ledger::Ledger::open(unit.path, ledger::Ledger::Access::write));
  std::atomic<bool> done = false;
  std::thread writing([&] {
    for (int i = 0; !done; ++i)
      (void)ledger::record(beside, unit.author, unit.protocol, records("B" + std::to_string(i), 1), "test");
  });
  const auto report = ledger::replay(unit.ledger, 2);
  done = true;
  writing.join();
  CHECK(value_of(report).faults.empty());
  CHECK(std::to_string(report->advices) ==
        ask_sql(unit.path, "SELECT count(*) FROM entries WHERE kind = 'advice given' AND sequence <= " +
                               std::to_string(report->checkpoint.size)));
}

TEST_CASE("a ruleset that is gone is named by the answers that used it", "[replay]") {
  TemporaryLedger unit;
  const auto receipt = unit.record(a_record("H1", "E1", "2026-03-10", {}));
  run_sql(unit.path, "DROP TRIGGER documents_are_never_deleted; DELETE FROM documents");
  const auto report = value_of(ledger::replay(unit.ledger));
  REQUIRE(report.faults.size() == 1);
  CHECK(report.faults[0].entry == receipt.advice);
}

TEST_CASE("an issued checkpoint is kept as an entry, and proves the ledger later", "[checkpoint]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  const auto issued = value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  CHECK(issued == value_of(unit.ledger.checkpoint()));
  CHECK(unit.entries().back().kind == "checkpoint");
  unit.record(a_record("H2", "E2", "2026-03-10", {}));
  CHECK(value_of(ledger::verify(unit.path, issued)).faults.empty());
  const ledger::Checkpoint other{issued.size, engine::sha256("another ledger")};
  const auto report = value_of(ledger::verify(unit.path, other));
  REQUIRE(report.faults.size() == 1);
  CHECK(report.faults[0].entry == issued.size);
  CHECK(report.faults[0].where == "checkpoint");
}
