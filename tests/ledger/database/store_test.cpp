#include "database/store.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <filesystem>
#include <stdexcept>

#include "database/transaction.h"
#include "ledger/audit.h"
#include "support/temporary_ledger.h"

using namespace support;
using engine::Done;
using engine::Result;

// Result codes: SQLite, "Result and Error Codes".
TEST_CASE("what SQLite throws becomes an error of ours", "[store]") {
  struct Row {
    const char* because;
    int sqlite;
    const char* code;
  };
  const auto row = GENERATE(values<Row>({
      {"another program writes", SQLITE_BUSY, "ledger_locked"},
      {"another program writes, in more words", SQLITE_BUSY_SNAPSHOT, "ledger_locked"},
      {"a file that may not be written", SQLITE_READONLY, "ledger_read_only"},
      {"a full disk", SQLITE_FULL, "disk_full"},
      {"a damaged file", SQLITE_CORRUPT, "ledger_damaged"},
      {"another kind of file", SQLITE_NOTADB, "not_a_ledger"},
      {"no file", SQLITE_CANTOPEN, "ledger_missing"},
      {"anything else", SQLITE_IOERR, "ledger_fault"},
  }));
  INFO(row.because);
  const auto result = ledger::at_the_border(
      "unit.ledger", [&]() -> Result<Done> { throw SQLite::Exception("words of SQLite", row.sqlite); });
  REQUIRE_FALSE(result);
  CHECK(result.errors().front().code == row.code);
  CHECK(result.errors().front().place.source == "unit.ledger");
}

TEST_CASE("any other exception stops at the border too", "[store]") {
  const auto result =
      ledger::at_the_border("unit.ledger", []() -> Result<Done> { throw std::out_of_range("no such key"); });
  REQUIRE_FALSE(result);
  CHECK(result.errors().front().code == "ledger_fault");
  CHECK(result.errors().front().message == "the ledger could not be worked with: no such key");
}

TEST_CASE("work that fails is taken back as a whole, and the next is done", "[store]") {
  TemporaryLedger unit;
  const auto append = [&](ledger::Transaction& transaction) {
    transaction.append(unit.author, ledger::Kind::checkpoint, "ledger", {{"size", 0}, {"head", ""}});
  };
  const auto refused = unit.ledger.store().write([&](ledger::Transaction& transaction) -> Result<Done> {
    append(transaction);
    return engine::Error{"of_the_work", "no", {}, ""};
  });
  REQUIRE_FALSE(refused);
  CHECK(refused.errors().front().code == "of_the_work");
  const auto thrown = unit.ledger.store().write([&](ledger::Transaction& transaction) -> Result<Done> {
    append(transaction);
    throw std::runtime_error("in the middle");
  });
  REQUIRE_FALSE(thrown);
  CHECK(unit.entries().empty());
  value_of(unit.ledger.store().write([&](ledger::Transaction& transaction) -> Result<Done> {
    append(transaction);
    return Done{};
  }));
  CHECK(unit.entries().size() == 1);
}

TEST_CASE("inputs that share a transaction are kept up to the first that fails", "[store]") {
  struct Row {
    const char* because;
    std::size_t count, fails;  // 300: more than share one
    bool throws;
    std::size_t kept;
  };
  const auto row = GENERATE(values<Row>({
      {"none fails", 300, 999, false, 300},
      {"the first", 300, 0, false, 0},
      {"one in the middle", 300, 30, false, 30},
      {"one that throws", 300, 30, true, 30},
      {"the second throws", 300, 1, true, 1},
      {"the last of the first hundred", 300, 99, false, 99},
      {"one of the next hundred", 300, 150, true, 150},
      {"none at all", 0, 999, false, 0},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  const auto done = unit.ledger.store().write_each(
      row.count, unit.clock, [&](ledger::Transaction& transaction, std::size_t i) -> Result<Done> {
        transaction.append(unit.author, ledger::Kind::checkpoint, "ledger", {{"size", i}, {"head", ""}});
        if (i != row.fails) return Done{};
        if (row.throws) throw std::runtime_error("in the middle");
        return engine::Error{"of_the_work", "no", {}, ""};
      });
  CHECK(static_cast<bool>(done) == (row.fails >= row.count));
  const auto entries = unit.entries();
  REQUIRE(entries.size() == row.kept);
  for (std::size_t i = 0; i < entries.size(); ++i)
    CHECK(entries[i].body == "{\"head\":\"\",\"size\":" + std::to_string(i) + "}");
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

TEST_CASE("inputs stop sharing a transaction when it has lasted", "[store]") {
  class Hasty : public FixedClock {
   public:
    using FixedClock::FixedClock;
    ledger::Instant now() const override { return {calls_++ * 1000}; }

   private:
    mutable std::int64_t calls_ = 0;
  };
  TemporaryLedger unit;
  const Hasty clock("2026-03-20");
  auto other = value_of(ledger::Ledger::open(unit.path, ledger::Ledger::Access::read));
  value_of(unit.ledger.store().write_each(
      3, clock, [&](ledger::Transaction& transaction, std::size_t i) -> Result<Done> {
        CHECK(value_of(other.checkpoint()).size == i);  // those before were committed
        transaction.append(unit.author, ledger::Kind::checkpoint, "ledger", {{"size", i}, {"head", ""}});
        return Done{};
      }));
}

TEST_CASE("when the disk takes no more, what was answered is there and nothing is half written",
          "[store][slow]") {
  TemporaryLedger unit;
  int answers[2];
  REQUIRE(pipe(answers) == 0);
  const pid_t child = fork();
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit most{400'000, 400'000};
    setrlimit(RLIMIT_FSIZE, &most);
    auto mine = ledger::Ledger::open(unit.path, ledger::Ledger::Access::write);
    if (!mine) _exit(2);
    for (int i = 0; i < 10'000; ++i) {
      const auto done = ledger::issue_checkpoint(*mine, unit.author);
      if (!done)
        _exit(done.errors().front().code == "ledger_fault" || done.errors().front().code == "disk_full" ? 0
                                                                                                        : 3);
      if (write(answers[1], &done->size, sizeof done->size) != sizeof done->size) _exit(4);
    }
    _exit(5);
  }
  close(answers[1]);
  std::uint64_t answered = 0, next = 0;
  while (read(answers[0], &next, sizeof next) == sizeof next) answered = next;
  close(answers[0]);
  int status = 0;
  waitpid(child, &status, 0);
  CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  const auto reopened = value_of(ledger::Ledger::open(unit.path, ledger::Ledger::Access::write));
  CHECK(answered > 0);
  CHECK(value_of(reopened.checkpoint()).size == answered);
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}
