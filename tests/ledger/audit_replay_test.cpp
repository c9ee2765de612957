#include <catch2/catch.hpp>

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
