// The machine's clock jumps back: entries keep what it showed, their order stays that of their numbers, and
// verification says so.

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;

namespace {

std::vector<std::string> remarks_of(const std::string& path) {
  std::vector<std::string> remarks;
  const auto report = value_of(ledger::verify(path, std::nullopt));
  CHECK(report.faults.empty());
  for (const auto& remark : report.remarks)
    remarks.push_back(std::to_string(remark.entry) + " " + remark.where + ": " + remark.what);
  return remarks;
}

}  // namespace

TEST_CASE("a clock that is set back changes no order, and verification remarks it", "[faults]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::uint64_t before = unit.entries().size();
  CHECK(remarks_of(unit.path).empty());
  unit.clock.set("2026-03-17");
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const std::string remark = std::to_string(before + 1) +
                             " clock: it was written at 2026-03-17T09:00:00.000Z, and the entry before it at "
                             "2026-03-20T09:00:00.000Z: the machine's clock was set back";
  CHECK(remarks_of(unit.path) == std::vector<std::string>{remark});
  CHECK(unit.kinds(before + 1) == "advice signed, recall opened");
  CHECK(value_of(ledger::overdue(unit.ledger, day("2029-06-01"), {})).size() == 1);
  unit.clock.set("2026-03-21");
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", hyperplastic_polyp())}));
  unit.clock.set("2026-03-01");
  value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  CHECK(remarks_of(unit.path) == std::vector<std::string>{remark + ", 2 times in all"});
  CHECK(value_of(ledger::replay(unit.ledger)).faults.empty());
}
