// Keeping a ledger: export, import, backup, restore, as a person works with them.

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/on_one_line.h"
#include "support/places.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using nlohmann::json;
using support::Finished;
using support::read_text;
using support::run_program;
using support::TemporaryUnit;

namespace {

/// A unit with one examination in its ledger.
struct Unit : TemporaryUnit {
  Unit() { REQUIRE(record("E1").code == 0); }

  Finished record(const std::string& exam) const {
    const auto given = support::a_record("H" + exam, exam, "2026-03-10",
                                         {support::a_lesion("L1", support::tubular_adenoma())});
    return receive({"record", "-"}, given.dump());
  }
  /// The checkpoint line of the ledger, or of another.
  std::string head(const std::string& path = {}) const {
    const Finished finished =
        run_program({"audit", "verify", "--json", "--ledger", path.empty() ? ledger : path});
    return json::parse(finished.out)["checkpoint"];
  }
  std::string in(const std::string& name) const { return folder.file(name); }
};

}  // namespace

TEST_CASE("an export goes out, comes in as the same ledger, and goes out again the same", "[cli]") {
  const Unit unit;
  const Finished out = unit.run({"export", unit.in("unit.export")});
  CHECK(out.code == 0);
  CHECK(out.out == unit.head() + "\n");
  const Finished printed = unit.run({"export"});
  CHECK(printed.code == 0);
  CHECK(printed.out == read_text(unit.in("unit.export")));
  CHECK(unit.run({"export", "-"}).out == printed.out);

  const Finished in = run_program({"import", unit.in("unit.export"), "--ledger", unit.in("copy")});
  CHECK(in.code == 0);
  CHECK_THAT(in.out,
             StartsWith("a new ledger was made: `" + unit.in("copy") + "`, 6 entries, 2 documents\n"));
  CHECK_THAT(in.out, EndsWith(unit.head() + "\n"));
  CHECK(unit.head(unit.in("copy")) == unit.head());
  CHECK(run_program({"export", "--ledger", unit.in("copy")}).out == printed.out);

  const Finished again = run_program({"import", "-", "--ledger", unit.in("copy")}, printed.out);
  CHECK(again.code == 0);
  CHECK_THAT(again.out, StartsWith("nothing changed: `" + unit.in("copy") + "` holds all of it"));
  const Finished as_json = run_program({"import", "-", "--json", "--ledger", unit.in("copy")}, printed.out);
  CHECK(json::parse(as_json.out)["new"] == false);
}

TEST_CASE("an import that cannot be says why, and leaves nothing", "[cli]") {
  const Unit unit;
  const std::string text = unit.run({"export"}).out;
  const auto import = [&](const std::string& given) {
    return run_program({"import", "-", "--ledger", unit.in("copy")}, given);
  };
  const Finished cut = import(text.substr(0, text.find('\n', 200) + 1));
  CHECK(cut.code == 3);
  CHECK_THAT(cut.err, StartsWith("standard input:3: error: the export ends after entry 0") ||
                          StartsWith("standard input:3: error: the export holds no entry"));
  CHECK_THAT(cut.err, Contains("help: it was cut: take another copy of it, or export again"));
  const Finished none = import("");
  CHECK(none.code == 3);
  CHECK_THAT(none.err, Contains("the export holds no entry, and not its last line"));
  CHECK_FALSE(fs::exists(unit.in("copy")));
  CHECK_FALSE(fs::exists(unit.in("copy.part")));
  const Finished missing = run_program({"import", unit.in("none"), "--ledger", unit.in("copy")});
  CHECK(missing.code == 3);
  CHECK_THAT(missing.err, Contains("none` cannot be read: no such file or directory"));

  run_program({"import", "-", "--ledger", unit.in("copy")}, text);
  REQUIRE(unit.record("E2").code == 0);
  const Finished longer = import(unit.run({"export"}).out);
  CHECK(longer.code == 2);
  CHECK_THAT(longer.err, Contains("the export goes on where the ledger"));
  CHECK_THAT(longer.err, Contains("nothing was changed"));
}

TEST_CASE("a backup is verified, restored where nothing is, and never over a ledger", "[cli]") {
  const Unit unit;
  const std::string line = unit.run({"backup", unit.in("backup")}).out;
  REQUIRE(unit.record("E2").code == 0);
  const std::string kept = line.substr(0, line.size() - 1);

  const Finished verified = run_program({"restore", unit.in("backup"), "--verify", "--checkpoint", kept});
  CHECK(verified.code == 0);
  CHECK(verified.out == "sound: 6 entries, none altered, and continues from entry 6\n" + line);
  const Finished cut = run_program({"restore", unit.in("backup"), "--verify", "--checkpoint", unit.head()});
  CHECK(cut.code == 1);
  CHECK_THAT(cut.out, Contains("entries were cut off"));
  const Finished elsewhere = run_program({"restore", unit.in("backup"), "--ledger", unit.in("copy")});
  CHECK(elsewhere.code == 0);
  CHECK_THAT(elsewhere.out, StartsWith("restored: `" + unit.in("copy") + "`, sound: 6 entries"));

  const std::string before = unit.head();
  const Finished refused = unit.run({"restore", unit.in("backup")});
  CHECK(refused.code == 4);
  CHECK_THAT(refused.err, Contains("there is a ledger already"));
  CHECK(unit.head() == before);
  const Finished not_sound =
      unit.run({"restore", unit.in("backup"), "--checkpoint", before, "--aside", unit.in("x")});
  CHECK(not_sound.code == 1);
  CHECK_THAT(not_sound.err, EndsWith("nothing was restored, and nothing moved\n"));
  CHECK(unit.head() == before);
  const Finished moved = unit.run({"restore", unit.in("backup"), "--aside", unit.in("aside")});
  CHECK(moved.code == 0);
  CHECK_THAT(moved.err, Contains("the ledger that was there is `" + unit.in("aside") + "`, "));
  CHECK_THAT(support::on_one_line(moved.err), Contains("more than the backup;"));
  CHECK(unit.head() == kept);
  CHECK(unit.head(unit.in("aside")) == before);
  CHECK(unit.record("E2").code == 0);
}

TEST_CASE("a ledger of older tables is kept beside itself before they are made anew, and that is said",
          "[cli]") {
  const TemporaryUnit unit;
  support::run_sql(unit.ledger, read_text(support::source("tests/ledger/database/version_1.sql")));
  const Finished checked = run_program({"restore", unit.ledger, "--verify"});
  CHECK(checked.code == 0);
  CHECK_THAT(checked.err,
             StartsWith("the tables of the backup are of an earlier version, 1: they are not compared"));
  const Finished verified = unit.run({"audit", "verify"});
  CHECK(verified.code == 0);
  CHECK_THAT(verified.err,
             Contains("they were made anew from its entries; as it was before, it is kept as `" +
                      unit.ledger + ".version-1.backup`"));
  CHECK(run_program({"restore", unit.ledger + ".version-1.backup", "--verify"}).code == 0);
  CHECK_THAT(unit.run({"audit", "verify"}).err, !Contains("made anew"));
}

TEST_CASE("a ledger of a later program is refused by every command, and not a byte of it changes", "[cli]") {
  const Unit unit;
  support::run_sql(unit.ledger, "PRAGMA user_version = 99; PRAGMA journal_mode = DELETE");
  const std::string before = read_text(unit.ledger);
  const std::vector<std::vector<std::string>> commands = {{"due"},
                                                          {"audit", "verify"},
                                                          {"audit", "checkpoint"},
                                                          {"export"},
                                                          {"backup", unit.in("backup")},
                                                          {"import", "-"},
                                                          {"people", "duplicates"}};
  for (const auto& words : commands) {
    INFO(words.front());
    const Finished refused = unit.run(words);
    CHECK(refused.code == 4);
    CHECK_THAT(refused.err, Contains("the ledger has tables of version 99; this program knows up to 6"));
    CHECK_THAT(refused.err, Contains("help: use the version of the program that wrote it, or a later one"));
  }
  CHECK(unit.record("E2").code == 4);
  CHECK(unit.receive({"serve", "--once", "--inbox", unit.in("inbox")}).code == 4);
  CHECK(run_program({"restore", unit.ledger, "--verify"}).code == 4);
  CHECK(read_text(unit.ledger) == before);
  CHECK_FALSE(fs::exists(unit.in("backup")));
}

TEST_CASE("verification warns of a ledger that everyone may read", "[cli]") {
  const Unit unit;
  CHECK(unit.run({"audit", "verify"}).err.empty());
  REQUIRE(::chmod(unit.ledger.c_str(), 0644) == 0);
  const Finished warned = unit.run({"audit", "verify"});
  CHECK(warned.code == 0);
  CHECK_THAT(warned.err, StartsWith("warning: everyone on this machine may read `" + unit.ledger + "`"));
}

TEST_CASE("a clock that is behind the ledger is told to whoever writes, and remarked by verification",
          "[cli]") {
  const TemporaryUnit unit;
  // Played up to a day that this machine has not seen; the walk through it then writes by the machine's
  // clock.
  const Finished written =
      run_program({"demo", "--patients", "5", "--today", "2126-03-20", "--ledger", unit.ledger});
  REQUIRE(written.code == 0);
  CHECK_THAT(written.err, StartsWith("warning: the machine's clock is behind the ledger: it shows "));
  CHECK_THAT(written.err, Contains("was written at 2126-03-"));
  const Finished verified = unit.run({"audit", "verify"});
  CHECK(verified.code == 0);
  CHECK_THAT(verified.out, StartsWith("remark: clock, entry "));
  CHECK_THAT(verified.out, Contains("the machine's clock was set back"));
  CHECK(json::parse(unit.run({"audit", "verify", "--json"}).out)["remarks"].size() == 1);
  const Finished served = unit.receive({"serve", "--once", "--inbox", unit.folder.file("inbox")});
  CHECK(served.code == 0);
  CHECK_THAT(served.err, !Contains("clock behind"));  // it wrote the last entry itself
}

TEST_CASE("a file that was emptied is begun anew in the open", "[cli]") {
  const Unit unit;
  fs::remove(unit.ledger + "-wal");
  fs::resize_file(unit.ledger, 0);
  const Finished begun = unit.record("E2");
  CHECK(begun.code == 0);
  CHECK_THAT(begun.err, Contains("a new ledger was begun"));
}
