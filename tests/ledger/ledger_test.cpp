#include "ledger/ledger.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "ledger/audit.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"

using namespace support;
using ledger::Ledger;

namespace {

template <class T>
std::string code_of(const engine::Result<T>& result) {
  return result ? "" : result.errors().front().code;
}

}  // namespace

TEST_CASE("a ledger that is closed and opened again is the same", "[ledger]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  const auto before = value_of(unit.ledger.checkpoint());
  for (const auto access : {Ledger::Access::read, Ledger::Access::write}) {
    const auto again = value_of(Ledger::open(unit.path, access));
    CHECK(value_of(again.checkpoint()) == before);
    CHECK(again.path() == unit.path);
  }
  CHECK(value_of(value_of(Ledger::open_or_create(unit.path)).checkpoint()) == before);
}

TEST_CASE("what cannot be opened says why", "[ledger]") {
  TemporaryFolder folder;
  const std::string path = folder.file("x");
  CHECK(code_of(Ledger::open(path, Ledger::Access::write)) == "ledger_missing");
  CHECK(code_of(Ledger::create(folder.file("no-such-folder/x"))) == "ledger_missing");
  std::ofstream(path)
      << "a letter, and no database at all, long enough to be looked at by anyone who cares to";
  CHECK(code_of(Ledger::open(path, Ledger::Access::write)) == "not_a_ledger");
  CHECK(code_of(Ledger::create(path)) == "ledger_exists");
  const std::string other = folder.file("other");
  run_sql(other, "CREATE TABLE t (a)");
  CHECK(code_of(Ledger::open(other, Ledger::Access::read)) == "not_a_ledger");
  CHECK(code_of(ledger::verify(other, std::nullopt)) == "not_a_ledger");
}

TEST_CASE("an empty file, as a crash leaves it, becomes a ledger", "[ledger]") {
  TemporaryFolder folder;
  std::ofstream(folder.file("x")).flush();
  CHECK(value_of(value_of(Ledger::open_or_create(folder.file("x"))).checkpoint()).size == 0);
}

TEST_CASE("a database without tables, as a crash leaves it, becomes a ledger", "[ledger]") {
  TemporaryFolder folder;
  const std::string path = folder.file("x");
  std::ofstream(path).flush();
  run_sql(path, "PRAGMA journal_mode = WAL");  // what SQLite writes first
  REQUIRE(std::filesystem::file_size(path) > 0);
  CHECK(value_of(value_of(Ledger::open_or_create(path)).checkpoint()).size == 0);
  CHECK(value_of(ledger::verify(path, std::nullopt)).faults.empty());
}

TEST_CASE("a database with anything in it is someone else's and is not touched", "[ledger]") {
  TemporaryFolder folder;
  const std::string path = folder.file("x");
  std::ofstream(path).flush();
  run_sql(path, "CREATE TABLE theirs (a)");
  CHECK(code_of(Ledger::open_or_create(path)) == "not_a_ledger");
  CHECK(code_of(Ledger::create(path)) == "ledger_exists");
}

TEST_CASE("a ledger of a later version is not touched", "[ledger]") {
  TemporaryLedger unit;
  run_sql(unit.path, "PRAGMA user_version = 99");
  const auto opened = Ledger::open(unit.path, Ledger::Access::write);
  REQUIRE_FALSE(opened);
  CHECK(opened.errors().front().code == "newer_ledger");
  CHECK(opened.errors().front().message == "the ledger has tables of version 99; this program knows up to 6");
  CHECK(opened.errors().front().place.source == unit.path);
}

TEST_CASE("a ledger opened for reading is not written to", "[ledger]") {
  TemporaryLedger unit;
  auto reader = value_of(Ledger::open(unit.path, Ledger::Access::read));
  CHECK(code_of(ledger::issue_checkpoint(reader, unit.author)) == "ledger_read_only");
}

TEST_CASE("an entry needs someone who acts, and nothing is half written", "[ledger]") {
  TemporaryLedger unit;
  const ledger::Author no_one{"", unit.clock};
  CHECK(code_of(ledger::record(unit.ledger, no_one, unit.protocol,
                               a_record("H1", "E1", "2026-03-10", {}).dump(), "x")) == "ledger_fault");
  CHECK(unit.entries().empty());
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

TEST_CASE("two connections write in turn, and each sees the other's entries", "[ledger]") {
  TemporaryLedger unit;
  auto other = value_of(Ledger::open(unit.path, Ledger::Access::write));
  for (int i = 0; i < 5; ++i) {
    value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
    value_of(ledger::issue_checkpoint(other, unit.author));
  }
  CHECK(value_of(unit.ledger.checkpoint()).size == 10);
  CHECK(value_of(unit.ledger.checkpoint()) == value_of(other.checkpoint()));
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

TEST_CASE("several processes append at once and lose nothing", "[ledger][slow]") {
  TemporaryLedger unit;
  constexpr int processes = 4, appends = 50;
  std::vector<pid_t> children;
  for (int i = 0; i < processes; ++i) {
    const pid_t child = fork();
    if (child == 0) {
      auto mine = Ledger::open(unit.path, Ledger::Access::write);
      bool good = static_cast<bool>(mine);
      for (int j = 0; good && j < appends; ++j)
        good = static_cast<bool>(ledger::issue_checkpoint(*mine, unit.author));
      _exit(good ? 0 : 1);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  }
  CHECK(value_of(unit.ledger.checkpoint()).size == processes * appends);
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

TEST_CASE("a process killed while it appends loses no finished append", "[ledger][slow]") {
  TemporaryLedger unit;
  const std::string told = unit.folder.file("told");
  const pid_t child = fork();
  if (child == 0) {
    auto mine = Ledger::open(unit.path, Ledger::Access::write);
    if (!mine) _exit(1);
    for (;;) {
      const auto done = ledger::issue_checkpoint(*mine, unit.author);
      if (!done) _exit(1);
      std::ofstream(told) << done->size << std::flush;
    }
  }
  // In the midst of it, however slow the machine is.
  for (int waited = 0;
       waited < 6000 && !(std::filesystem::exists(told) && std::filesystem::file_size(told) > 0); ++waited)
    usleep(10'000);
  usleep(100'000);
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  std::uint64_t finished = 0;
  std::ifstream(told) >> finished;
  const auto after = value_of(value_of(Ledger::open(unit.path, Ledger::Access::write)).checkpoint());
  CHECK(after.size >= finished);
  CHECK(after.size > 0);
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

TEST_CASE("what is read while a moment is held is of that moment, whatever others write", "[ledger]") {
  TemporaryLedger unit;
  const Ledger reader = value_of(Ledger::open(unit.path, Ledger::Access::read));
  const auto size = [&] { return value_of(reader.checkpoint()).size; };
  {
    const auto moment = value_of(reader.moment());
    value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
    CHECK(size() == 0);
    {
      const auto within = value_of(reader.moment());
      CHECK(code_of(reader.document("sha256:00")) == "unknown_document");  // an error leaves it held
      value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
      CHECK(size() == 0);
    }
    CHECK(size() == 0);
  }
  CHECK(size() == 2);
}

TEST_CASE("a document that is not kept is not found", "[ledger]") {
  TemporaryLedger unit;
  CHECK(code_of(unit.ledger.document("sha256:00")) == "unknown_document");
}

TEST_CASE("entries are read from a number on", "[ledger]") {
  TemporaryLedger unit;
  for (int i = 0; i < 3; ++i) value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  std::vector<std::uint64_t> numbers;
  value_of(unit.ledger.each_entry(2, [&](const ledger::Entry& entry) { numbers.push_back(entry.sequence); }));
  CHECK(numbers == std::vector<std::uint64_t>{2, 3});
}
