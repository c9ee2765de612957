#include "ledger/backup.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;

TEST_CASE("a backup is a sound ledger of its own that goes on from its checkpoint", "[backup]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::string file = unit.folder.file("copy.ledger");
  const auto before = value_of(unit.ledger.checkpoint());
  const auto checkpoint = value_of(ledger::back_up(unit.ledger, unit.author, file));
  CHECK(checkpoint == before);
  CHECK(unit.entries().back().kind == "backup");
  CHECK(value_of(ledger::verify(unit.path, checkpoint)).faults.empty());
  CHECK(faults_of(file).empty());
  CHECK_FALSE(std::filesystem::exists(file + ".part"));
  auto restored = value_of(ledger::Ledger::open(file, ledger::Ledger::Access::write));
  value_of(ledger::issue_checkpoint(restored, unit.author));
  CHECK(value_of(ledger::verify(file, checkpoint)).faults.empty());
}

TEST_CASE("a backup never takes the place of a file, and leaves none half written", "[backup]") {
  TemporaryLedger unit;
  const std::string file = unit.folder.file("copy.ledger");
  std::ofstream(file) << "someone's";
  CHECK(code_of(ledger::back_up(unit.ledger, unit.author, file)) == "file_exists");
  const std::string nowhere = unit.folder.file("no-such-folder/copy.ledger");
  CHECK(code_of(ledger::back_up(unit.ledger, unit.author, nowhere)) == "file_not_written");
  for (const char* end : {"-wal", "-journal"}) {  // SQLite would take it for the copy's own
    const std::string beside = unit.folder.file("beside");
    std::ofstream(beside + end) << "another's";
    CHECK(code_of(ledger::back_up(unit.ledger, unit.author, beside)) == "file_exists");
    std::filesystem::remove(beside + end);
  }
  CHECK(unit.entries().empty());
}

TEST_CASE("a ledger that was altered gives no backup", "[backup]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  run_sql(unit.path, "UPDATE people SET name = 'Another, Name'");
  const std::string file = unit.folder.file("copy.ledger");
  CHECK(code_of(ledger::back_up(unit.ledger, unit.author, file)) == "backup_not_sound");
  CHECK_FALSE(std::filesystem::exists(file));
  CHECK_FALSE(std::filesystem::exists(file + ".part"));
}
