// A ledger that version 1 of the tables wrote, as text of SQL: opened, made anew, and worked on.

#include "database/upgrade.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "ledger/lists.h"
#include "ledger/people.h"
#include "ledger/restore.h"
#include "support/places.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;
using ledger::Ledger;

namespace {

struct OldLedger {
  TemporaryFolder folder;
  std::string path = folder.file("old.ledger");
  OldLedger() {
    std::ifstream file(support::source("tests/ledger/database/version_1.sql"));
    std::ostringstream sql;
    sql << file.rdbuf();
    run_sql(path, sql.str());
  }
};

}  // namespace

TEST_CASE("a ledger of the first version gets the tables of this one, and keeps every entry", "[upgrade]") {
  OldLedger old;
  const auto access = GENERATE(Ledger::Access::read, Ledger::Access::write);
  const std::string head = ask_sql(old.path, "SELECT hex(hash) FROM entries ORDER BY sequence DESC LIMIT 1");
  {
    const auto opened = value_of(Ledger::open(old.path, access));
    CHECK(opened.kept_before_upgrade() == old.path + ".version-1.backup");
    CHECK(value_of(opened.checkpoint()).size == 29);
  }
  CHECK(ask_sql(old.path, "SELECT hex(hash) FROM entries ORDER BY sequence DESC LIMIT 1") == head);
  CHECK(ask_sql(old.path, "PRAGMA user_version") == "6");
  CHECK(faults_of(old.path).empty());
  CHECK(value_of(Ledger::open(old.path, access)).kept_before_upgrade().empty());
  const auto kept = value_of(ledger::check_backup(old.path + ".version-1.backup", std::nullopt));
  CHECK(kept.faults.empty());
  CHECK(kept.older_version == 1);
  CHECK(kept.checkpoint.size == 29);
}

TEST_CASE("a copy that was kept before is never written over", "[upgrade]") {
  OldLedger old;
  const std::string taken = old.path + ".version-1.backup";
  std::ofstream(taken) << "someone's";
  const auto opened = value_of(Ledger::open(old.path, Ledger::Access::write));
  CHECK(opened.kept_before_upgrade() == old.path + ".version-1-2.backup");
  CHECK(std::filesystem::file_size(taken) == 9);
}

TEST_CASE("what an old ledger tells is there after the upgrade", "[upgrade]") {
  OldLedger old;
  const auto ledger = value_of(Ledger::open(old.path, Ledger::Access::read));
  CHECK(value_of(ledger::find_person(ledger, "H2")).status == "died 2029-02-20");
  CHECK(value_of(ledger::to_close(ledger, day("2029-04-01"), {})).size() == 1);
  CHECK(value_of(ledger::waiting_inputs(ledger, {})).size() == 1);
  CHECK(ask_sql(old.path, "SELECT state || ' ' || answered_by FROM recalls WHERE exam = 'E1'") ==
        "answered E3");
  CHECK(value_of(ledger::replay(ledger)).faults.empty());
}

TEST_CASE("an upgraded ledger is worked on like any other", "[upgrade]") {
  OldLedger old;
  auto ledger = value_of(Ledger::open(old.path, Ledger::Access::write));
  const FixedClock clock{"2029-05-01"};
  const ledger::Author author{"test", clock};
  value_of(ledger::merge_people(ledger, author, small_protocol(), "H1", "H2", {"Dr Rao", "the same"}));
  CHECK(faults_of(old.path).empty());
}
