// The chain followed in parts beside each other finds what it finds from end to end.

#include "database/chain_check.h"

#include <catch2/catch.hpp>

#include "database/spans.h"
#include "database/store.h"
#include "database/transaction.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"
#include "support/verified.h"

using namespace support;

namespace {

std::string told(const ledger::AuditReport& report) {
  std::string text = ledger::text_of(report.checkpoint) + "\n";
  for (const ledger::AuditFault& fault : report.faults)
    text += std::to_string(fault.entry) + " " + fault.where + ": " + fault.what + "\n";
  return text;
}

ledger::AuditReport followed(const TemporaryLedger& unit, const ledger::Checkpoint& kept,
                             std::uint32_t threads) {
  const std::uint64_t last = value_of(unit.ledger.checkpoint()).size;
  return value_of(ledger::check_chain(unit.path, last, kept, threads));
}

void append_checkpoints(TemporaryLedger& unit, int count) {
  value_of(unit.ledger.store().write([&](ledger::Transaction& transaction) -> engine::Result<engine::Done> {
    for (int i = 0; i < count; ++i)
      transaction.append(unit.author, ledger::Kind::checkpoint, "ledger", {{"size", i}, {"head", ""}});
    return engine::Done{};
  }));
}

}  // namespace

TEST_CASE("a chain followed in parts has the same faults as one followed from end to end", "[chain]") {
  TemporaryLedger unit;
  append_checkpoints(unit, 4000);
  const auto kept = value_of(unit.ledger.checkpoint());
  struct Row {
    const char* because;
    const char* sql;
    std::size_t faults;
  };
  const auto row = GENERATE(values<Row>({
      {"sound", "SELECT 1", 0},
      {"a body in each part", "UPDATE entries SET body = '{}' WHERE sequence IN (17, 1300, 2900)", 3},
      {"the last of a part", "UPDATE entries SET hash = zeroblob(32) WHERE sequence = 2000", 2},
      {"the first of a part taken out", "DELETE FROM entries WHERE sequence = 2001", 1},
      {"a whole part taken out", "DELETE FROM entries WHERE sequence BETWEEN 1001 AND 2500", 1},
      {"a number below one", "UPDATE entries SET sequence = -5 WHERE sequence = 7", 3},
      {"the end cut off", "DELETE FROM entries WHERE sequence > 3990", 1},
  }));
  INFO(row.because);
  run_sql(unit.path,
          std::string("DROP TRIGGER entries_are_never_changed; DROP TRIGGER entries_are_never_deleted;") +
              row.sql);
  const auto alone = followed(unit, kept, 1);
  CHECK(alone.faults.size() == row.faults);
  for (const std::uint32_t threads : {2U, 3U, 4U, 50U})
    CHECK(told(followed(unit, kept, threads)) == told(alone));
}

TEST_CASE("every entry is in one of the parts", "[chain]") {
  for (const std::uint64_t last :
       {std::uint64_t{0}, std::uint64_t{999}, std::uint64_t{2000}, std::uint64_t{123'457}}) {
    for (const std::uint32_t threads : {0U, 1U, 2U, 7U}) {
      const auto spans = ledger::spans_of(last, threads);
      CHECK(spans.front().first == std::numeric_limits<std::int64_t>::min());
      CHECK(spans.back().last == static_cast<std::int64_t>(last));
      for (std::size_t i = 1; i < spans.size(); ++i) CHECK(spans[i].first == spans[i - 1].last + 1);
    }
  }
}
