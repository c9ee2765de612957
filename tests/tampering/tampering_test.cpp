// One file per way to falsify a ledger. Each says on its first lines which entry, and which check, names it.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "ledger/audit.h"
#include "ledger/signing.h"
#include "support/places.h"
#include "support/records.h"
#include "support/shell.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"

using namespace support;

namespace {

/// Entries 1 to 11: ruleset, person, examination, two pots, advice, histology, advice, superseded, signed,
/// recall.
void tell_a_story(TemporaryLedger& unit) {
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  REQUIRE(unit.entries().size() == 11);
}

std::vector<std::string> ways() {
  std::vector<std::string> files;
  for (const auto& file : std::filesystem::directory_iterator(support::source("tests/tampering"))) {
    if (file.path().extension() == ".sql") files.push_back(file.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string content_of(const std::string& file) {
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}

/// `3 chain` for each line `-- fault: 3 chain`.
std::vector<std::string> expected_in(const std::string& sql) {
  std::vector<std::string> faults;
  std::istringstream lines(sql);
  const std::string mark = "-- fault: ";
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(mark)) faults.push_back(line.substr(mark.size()));
  }
  return faults;
}

std::vector<std::string> faults_of(const ledger::AuditReport& report) {
  std::vector<std::string> faults;
  for (const auto& fault : report.faults) faults.push_back(std::to_string(fault.entry) + " " + fault.where);
  return faults;
}

}  // namespace

TEST_CASE("a falsified ledger is found out, and the entry named", "[tampering]") {
  const std::string file = GENERATE(from_range(ways()));
  INFO(file);
  TemporaryLedger unit;
  tell_a_story(unit);
  const auto kept = value_of(unit.ledger.checkpoint());
  REQUIRE(value_of(ledger::verify(unit.path, kept)).faults.empty());
  const std::string sql = content_of(file);
  const auto expected = expected_in(sql);
  REQUIRE_FALSE(expected.empty());
  run_sql(unit.path, sql);
  const auto report = value_of(ledger::verify(unit.path, kept));
  for (const auto& fault : report.faults)
    UNSCOPED_INFO(fault.entry << " " << fault.where << ": " << fault.what);
  CHECK_THAT(faults_of(report), Catch::Matchers::VectorContains(expected.front()));
  for (const std::string& fault : expected)
    CHECK_THAT(faults_of(report), Catch::Matchers::VectorContains(fault));
}

TEST_CASE("without a checkpoint a cut-off end goes unseen", "[tampering]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  run_sql(unit.path, content_of(support::source("tests/tampering/cut_the_end_off.sql")));
  const auto faults = faults_of(value_of(ledger::verify(unit.path, std::nullopt)));
  // The examination's row was last written by the signature, so nothing points to entry 11 any more.
  CHECK(faults.empty());
}

TEST_CASE("any changed byte of any column of any entry is named", "[tampering][slow]") {
  TemporaryLedger unit;
  for (int i = 0; i < 3; ++i) value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  const auto kept = value_of(unit.ledger.checkpoint());
  run_sql(unit.path, "DROP TRIGGER entries_are_never_changed");
  const auto hex = [](const std::string& bytes) {
    std::string out;
    for (const char byte : bytes) {
      const auto c = static_cast<unsigned char>(byte);
      constexpr const char* digits = "0123456789abcdef";
      out += digits[c >> 4];
      out += digits[c & 15];
    }
    return out;
  };
  int changed = 0;
  for (const std::string column : {"at", "actor", "kind", "subject", "body", "previous", "hash"}) {
    const bool text = column != "previous" && column != "hash";
    for (int sequence = 1; sequence <= 3; ++sequence) {
      const std::string where = " WHERE sequence = " + std::to_string(sequence);
      const std::string before =
          ask_sql(unit.path, "SELECT CAST(" + column + " AS BLOB) FROM entries" + where);
      const auto set = [&](const std::string& bytes) {
        const std::string literal = "x'" + hex(bytes) + "'";
        run_sql(unit.path, "UPDATE entries SET " + column + " = " +
                               (text ? "CAST(" + literal + " AS TEXT)" : literal) + where);
      };
      for (std::size_t i = 0; i < before.size(); ++i) {
        std::string bytes = before;
        bytes[i] = static_cast<char>(bytes[i] ^ (1 << (i % 8)));
        set(bytes);
        ++changed;
        const auto report = value_of(ledger::verify(unit.path, kept));
        const bool named = std::any_of(report.faults.begin(), report.faults.end(), [&](const auto& fault) {
          return fault.entry == static_cast<std::uint64_t>(sequence);
        });
        if (!named) FAIL_CHECK("entry " << sequence << ", " << column << ", byte " << i << " is not named");
      }
      set(before);
    }
  }
  CHECK(changed > 500);
}

TEST_CASE("a changed number is named as the one that is missing", "[tampering]") {
  const int bit = GENERATE(range(2, 62));
  TemporaryLedger unit;
  for (int i = 0; i < 3; ++i) value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  run_sql(unit.path,
          "DROP TRIGGER entries_are_never_changed; UPDATE entries SET sequence = sequence | (1 << " +
              std::to_string(bit) + ") WHERE sequence = 2");
  const auto faults = faults_of(value_of(ledger::verify(unit.path, std::nullopt)));
  CHECK_THAT(faults, Catch::Matchers::VectorContains(std::string("2 chain")));
}

TEST_CASE("the triggers refuse what would change the past", "[tampering]") {
  struct Row {
    const char* because;
    const char* sql;
    const char* words;
  };
  const auto row = GENERATE(values<Row>({
      {"an update", "UPDATE entries SET actor = 'x' WHERE sequence = 3", "an entry is never changed"},
      {"a delete", "DELETE FROM entries WHERE sequence = 11", "an entry is never deleted"},
      {"the next but one",
       "INSERT INTO entries SELECT 13, at, actor, kind, subject, body, hash, hash FROM entries"
       " WHERE sequence = 11",
       "only the next entry can be added"},
      {"no number",
       "INSERT INTO entries SELECT NULL, at, actor, kind, subject, body, hash, hash FROM entries"
       " WHERE sequence = 11",
       "only the next entry can be added"},
      {"a number that is there",
       "INSERT OR REPLACE INTO entries SELECT sequence, at, 'x', kind, subject, body, previous,"
       " hash FROM entries WHERE sequence = 11",
       "only the next entry can be added"},
      {"the next with another link",
       "INSERT INTO entries SELECT 12, at, actor, kind, subject, body, previous, hash"
       " FROM entries WHERE sequence = 11",
       "only the next entry can be added"},
      {"a replaced document",
       "INSERT OR REPLACE INTO documents SELECT digest, CAST('x' AS BLOB) FROM documents LIMIT 1",
       "a document is never replaced"},
      {"a changed document", "UPDATE documents SET bytes = CAST('x' AS BLOB)", "a document is never changed"},
      {"a deleted document", "DELETE FROM documents", "a document is never deleted"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  tell_a_story(unit);
  CHECK_THROWS_WITH(run_sql(unit.path, row.sql), row.words);
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
}

// Outside check: the sqlite3 shell.
TEST_CASE("the file is sound to SQLite itself", "[tampering]") {
  if (shell("command -v sqlite3").exit_code != 0) {
    WARN("not checked: there is no sqlite3 shell");
    return;
  }
  TemporaryLedger unit;
  tell_a_story(unit);
  CHECK(shell("sqlite3 '" + unit.path +
              "' 'PRAGMA integrity_check; PRAGMA foreign_key_check; PRAGMA journal_mode'")
            .printed == "ok\nwal\n");
  CHECK(shell("sqlite3 '" + unit.path + "' 'PRAGMA application_id; PRAGMA user_version'").printed ==
        "1146438999\n6\n");
}

// Outside check: the sqlite3 shell takes the entries out, sha256sum follows the chain.
TEST_CASE("sha256sum follows the chain of a real ledger", "[tampering]") {
  if (shell("command -v sqlite3").exit_code != 0) {
    WARN("not checked: there is no sqlite3 shell");
    return;
  }
  TemporaryLedger unit;
  tell_a_story(unit);
  const auto followed =
      shell(support::source("tests/tampering/follow_chain.sh") + " '" + unit.path + "' 2>&1");
  CHECK(followed.exit_code == 0);
  CHECK(followed.printed == ledger::text_of(value_of(unit.ledger.checkpoint())) + "\n");
}
