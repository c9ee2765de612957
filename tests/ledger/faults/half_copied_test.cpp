// A ledger that was copied as a file, in part: it is refused, or found out, and never passes for a shorter
// one when a checkpoint was kept.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "support/records.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

std::string content_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void write(const std::string& path, const std::string& content) {
  std::ofstream(path, std::ios::binary) << content;
}

void work_on(TemporaryLedger& unit) {
  for (int i = 0; i < 12; ++i) {
    const std::string number = std::to_string(i);
    unit.record(a_record("H" + number, "E" + number, "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  }
}

/// Refused with what to do, or found out by verification against the checkpoint.
bool is_found_out(const std::string& path, const ledger::Checkpoint& kept) {
  const auto report = ledger::verify(path, kept);
  if (report) return !report->faults.empty();
  const engine::Error& error = report.errors().front();
  INFO(engine::text_of(error));
  CHECK((error.code == "ledger_damaged" || error.code == "not_a_ledger" || error.code == "ledger_missing"));
  CHECK_FALSE(error.help.empty());
  return true;
}

}  // namespace

TEST_CASE("a ledger that was cut off when it was copied is found out at every length", "[faults][slow]") {
  TemporaryLedger unit;
  work_on(unit);
  const auto kept = value_of(unit.ledger.checkpoint());
  unit.ledger = value_of(Ledger::create(unit.folder.file("another")));  // closed: all is in one file
  REQUIRE_FALSE(fs::exists(unit.path + "-wal"));
  const std::string whole = content_of(unit.path);
  const std::string copy = unit.folder.file("copy");
  write(copy, whole);
  REQUIRE_FALSE(is_found_out(copy, kept));
  for (std::size_t length = 0; length < whole.size(); length += 1024) {
    INFO(length << " of " << whole.size() << " bytes");
    write(copy, whole.substr(0, length));
    CHECK(is_found_out(copy, kept));
    CHECK(content_of(copy) == whole.substr(0, length));  // what is left of it is not touched
  }
}

TEST_CASE("a ledger that was copied without its log is found out by the checkpoint", "[faults]") {
  TemporaryLedger unit;
  work_on(unit);
  const auto kept = value_of(unit.ledger.checkpoint());
  const std::string copy = unit.folder.file("copy");
  fs::copy_file(unit.path, copy);
  CHECK(is_found_out(copy, kept));
}

TEST_CASE("a new ledger that was copied without its log is still known for one", "[faults]") {
  TemporaryLedger unit;
  value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  const auto kept = value_of(unit.ledger.checkpoint());
  const std::string copy = unit.folder.file("copy");
  fs::copy_file(unit.path, copy);
  CHECK(code_of(Ledger::create(copy)) == "ledger_exists");
  CHECK(is_found_out(copy, kept));
}

TEST_CASE("a log without its ledger is not taken for a leftover", "[faults]") {
  const bool is_empty = GENERATE(false, true);  // an empty file is as good as none
  INFO((is_empty ? "an empty file" : "no file"));
  TemporaryLedger unit;
  work_on(unit);
  const std::string copy = unit.folder.file("copy");
  fs::copy_file(unit.path + "-wal", copy + "-wal");
  const std::string log = content_of(copy + "-wal");
  REQUIRE_FALSE(log.empty());
  if (is_empty) std::ofstream(copy).flush();
  for (const auto& opened :
       {Ledger::open(copy, Ledger::Access::read), Ledger::open(copy, Ledger::Access::write),
        Ledger::open_or_create(copy), Ledger::create(copy)}) {
    REQUIRE(code_of(opened) == "ledger_missing");
    CHECK(opened.errors().front().message ==
          "the ledger is not there, or is empty, but its write-ahead log `" + copy +
              "-wal` is, and holds what was last written");
  }
  CHECK(code_of(ledger::verify(copy, std::nullopt)) == "ledger_missing");
  CHECK(content_of(copy + "-wal") == log);
  fs::remove(copy);
  fs::copy_file(unit.path, copy);  // put back beside it
  CHECK(value_of(value_of(Ledger::open(copy, Ledger::Access::write)).checkpoint()) ==
        value_of(unit.ledger.checkpoint()));
}
