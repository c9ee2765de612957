#include "ledger/restore.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "ledger/backup.h"
#include "support/places.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

/// A unit with a backup, and three entries more than it.
struct BackedUp : TemporaryLedger {
  std::string backup = folder.file("copy.ledger");
  std::string aside = folder.file("aside.ledger");
  ledger::Checkpoint at_backup;
  ledger::Checkpoint now;

  BackedUp() {
    record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    at_backup = value_of(ledger::back_up(ledger, author, backup));
    value_of(ledger::issue_checkpoint(ledger, author));
    now = value_of(ledger::issue_checkpoint(ledger, author));
  }
  /// Nobody has it open any more.
  void close() { ledger = value_of(Ledger::create(folder.file("another.ledger"))); }
};

ledger::Checkpoint head_of(const std::string& path) {
  return value_of(value_of(Ledger::open(path, Ledger::Access::read)).checkpoint());
}

}  // namespace

TEST_CASE("a backup is checked without being touched", "[restore]") {
  BackedUp unit;
  const auto written = fs::last_write_time(unit.backup);
  const auto report = value_of(ledger::check_backup(unit.backup, unit.at_backup));
  CHECK(report.faults.empty());
  CHECK(report.checkpoint == unit.at_backup);
  CHECK(report.older_version == 0);
  const auto cut = value_of(ledger::check_backup(unit.backup, unit.now));
  REQUIRE(cut.faults.size() == 1);
  CHECK(cut.faults.front().where == "checkpoint");
  CHECK(fs::last_write_time(unit.backup) == written);
  CHECK(code_of(ledger::check_backup(unit.folder.file("none"), std::nullopt)) == "ledger_missing");
}

TEST_CASE("a backup of older tables is checked without making them anew", "[restore]") {
  TemporaryFolder folder;
  const std::string backup = folder.file("old.ledger");
  std::ifstream sql(support::source("tests/ledger/database/version_1.sql"));
  run_sql(backup, std::string(std::istreambuf_iterator<char>(sql), {}));
  const auto report = value_of(ledger::check_backup(backup, std::nullopt));
  CHECK(report.faults.empty());
  CHECK(report.older_version == 1);
  CHECK(ask_sql(backup, "PRAGMA user_version") == "1");
  const std::string path = folder.file("unit.ledger");
  const auto restored = value_of(ledger::restore(backup, path, std::nullopt, ""));
  CHECK(restored.report.older_version == 1);
  CHECK(ask_sql(backup, "PRAGMA user_version") == "1");
  CHECK(ask_sql(path, "PRAGMA user_version") == "6");
  CHECK(faults_of(path).empty());
}

TEST_CASE("a backup is put where there is no ledger, and is worked on", "[restore]") {
  BackedUp unit;
  const std::string path = unit.folder.file("restored.ledger");
  const auto restored = value_of(ledger::restore(unit.backup, path, unit.at_backup, ""));
  CHECK(restored.report.checkpoint == unit.at_backup);
  CHECK_FALSE(restored.before);
  auto again = value_of(Ledger::open(path, Ledger::Access::write));
  value_of(ledger::issue_checkpoint(again, unit.author));
  CHECK(value_of(ledger::verify(path, unit.at_backup)).faults.empty());
}

TEST_CASE("a ledger that is there is moved aside, or nothing is done", "[restore]") {
  BackedUp unit;
  unit.close();
  const auto refused = ledger::restore(unit.backup, unit.path, std::nullopt, "");
  REQUIRE(code_of(refused) == "ledger_exists");
  CHECK(refused.errors().front().help ==
        "`--aside FILE` says where it is to be moved; it is never written over");
  std::ofstream(unit.aside) << "someone's";
  CHECK(code_of(ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside)) == "file_exists");
  CHECK(code_of(ledger::restore(unit.path, unit.path, std::nullopt, unit.folder.file("x"))) ==
        "ledger_exists");
  CHECK(head_of(unit.path) == unit.now);
  fs::remove(unit.aside);

  const auto restored = value_of(ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside));
  CHECK(restored.before == unit.now);
  CHECK(head_of(unit.path) == unit.at_backup);
  CHECK(head_of(unit.aside) == unit.now);
  CHECK(faults_of(unit.path).empty());
  CHECK(faults_of(unit.aside).empty());
  CHECK_FALSE(fs::exists(unit.path + ".part"));
}

TEST_CASE("a ledger that is in use is not moved aside", "[restore]") {
  BackedUp unit;
  int tell[2], end[2];
  REQUIRE((pipe(tell) == 0 && pipe(end) == 0));
  unit.close();
  const pid_t child = fork();
  if (child == 0) {  // has it open, and does nothing
    const auto open = Ledger::open(unit.path, Ledger::Access::write);
    char byte = open && open->checkpoint() ? 'y' : 'n';
    if (write(tell[1], &byte, 1) != 1) _exit(1);
    close(end[1]);
    _exit(read(end[0], &byte, 1) == 0 ? 0 : 1);
  }
  char byte = 0;
  REQUIRE(read(tell[0], &byte, 1) == 1);
  REQUIRE(byte == 'y');
  const auto refused = ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside);
  REQUIRE(code_of(refused) == "ledger_locked");
  CHECK(refused.errors().front().help == "stop `serve` and whatever else has it open, then try again");
  CHECK_FALSE(fs::exists(unit.aside));
  CHECK_FALSE(fs::exists(unit.path + ".part"));
  CHECK(head_of(unit.path) == unit.now);
  close(end[1]);
  int status = 0;
  waitpid(child, &status, 0);
  CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  CHECK(ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside));
}

TEST_CASE("a backup that is not sound, or does not go on from the checkpoint, is not restored", "[restore]") {
  BackedUp unit;
  unit.close();
  const auto cut = value_of(ledger::restore(unit.backup, unit.path, unit.now, unit.aside));
  CHECK_FALSE(cut.report.faults.empty());
  run_sql(unit.backup, "UPDATE people SET name = 'Another, Name'");
  const auto altered = value_of(ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside));
  REQUIRE_FALSE(altered.report.faults.empty());
  CHECK(altered.report.faults.front().where == "people");
  CHECK_FALSE(fs::exists(unit.aside));
  CHECK_FALSE(fs::exists(unit.path + ".part"));
  CHECK(head_of(unit.path) == unit.now);
}

TEST_CASE("a ledger that is damaged is moved aside as it is", "[restore]") {
  BackedUp unit;
  const std::string log = unit.path + "-wal";
  const std::string kept_log = unit.folder.file("log");
  fs::copy_file(log, kept_log);
  unit.close();
  fs::copy_file(kept_log, log);
  std::ofstream(unit.path, std::ios::in | std::ios::out) << "no database any more";
  std::fstream frames(log, std::ios::in | std::ios::out | std::ios::binary);
  frames.seekp(40) << "no frame any more";  // else the database is whole again by its log
  frames.close();
  const auto restored = value_of(ledger::restore(unit.backup, unit.path, std::nullopt, unit.aside));
  CHECK_FALSE(restored.before);
  CHECK(head_of(unit.path) == unit.at_backup);
  CHECK_FALSE(fs::exists(log));
  CHECK(fs::file_size(unit.aside + "-wal") == fs::file_size(kept_log));
}
