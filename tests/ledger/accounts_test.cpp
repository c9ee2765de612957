#include "ledger/accounts.h"

#include <catch2/catch.hpp>

#include "ledger/chain.h"
#include "ledger/people.h"
#include "ledger/protocol.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

using namespace support;
using ledger::Author;
using ledger::Role;

namespace {

/// A unit with a consultant, an administrator and an auditor, and an examination to be signed.
struct NamedUnit : TemporaryLedger {
  Author consultant{"rao", clock}, administrator{"smith", clock}, auditor{"audit", clock};
  NamedUnit() {
    value_of(ledger::name_account(ledger, author, {"rao", "Dr Rao", Role::consultant}, "head of unit"));
    value_of(ledger::name_account(ledger, consultant, {"smith", "Jo Smith", Role::administrator}, "office"));
    value_of(ledger::name_account(ledger, consultant, {"audit", "Ann Audit", Role::auditor}, "audit"));
    value_of(record_as(administrator, "E1"));
  }
  engine::Result<std::vector<ledger::Receipt>> record_as(const Author& who, const std::string& exam) {
    return ledger::record(ledger, who, protocol,
                          a_record("H1", exam, "2026-03-10", {a_lesion("L1", tubular_adenoma())}).dump(),
                          "x");
  }
};

}  // namespace

TEST_CASE("as long as no account is named everyone may do everything", "[accounts]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Anyone", 0));
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).accounts == 0);
}

TEST_CASE("the first account is a consultant's", "[accounts]") {
  TemporaryLedger unit;
  CHECK(code_of(ledger::name_account(unit.ledger, unit.author, {"smith", "Jo Smith", Role::administrator},
                                     "office")) == "first_account");
  CHECK(code_of(ledger::name_account(unit.ledger, unit.author, {"", "", Role::consultant}, "")) ==
        "detail_missing");
}

TEST_CASE("a signature needs a consultant, under the consultant's own account and name", "[accounts]") {
  NamedUnit unit;
  const auto sign = [&](const Author& who, const char* name) {
    return code_of(ledger::sign(unit.ledger, who, "E1", name, 0));
  };
  const auto before = unit.entries().size();
  CHECK(sign(unit.administrator, "Jo Smith") == "not_allowed");
  CHECK(sign(unit.administrator, "Dr Rao") == "not_allowed");
  CHECK(sign(unit.auditor, "Dr Rao") == "not_allowed");
  CHECK(sign(unit.consultant, "Dr Other") == "not_your_name");
  CHECK(sign({"nobody", unit.clock}, "Dr Rao") == "unknown_account");
  CHECK(sign({"rao", unit.clock, "smith"}, "Dr Rao") == "not_allowed");
  CHECK(sign({"Dr Rao", unit.clock, "rao"}, "Dr Rao") == "not_your_account");
  CHECK(unit.entries().size() == before);
  CHECK(sign(unit.consultant, "Dr Rao").empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("what is not a consultant's alone, an administrator does", "[accounts]") {
  NamedUnit unit;
  const std::string recall = value_of(ledger::sign(unit.ledger, unit.consultant, "E1", "Dr Rao", 0)).recall;
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "a reason";
  details.from = details.to = day("2029-01-01");
  details.on = day("2029-01-01");
  const auto move = [&](const Author& who, ledger::Move which) {
    return code_of(ledger::move_recall(unit.ledger, who, recall, which, details));
  };
  using enum ledger::Move;
  for (const auto which : {vet, redate, close}) CHECK(move(unit.administrator, which) == "not_allowed");
  for (const auto which : {invite, book, miss, defer, hand_over, take_back})
    CHECK(move(unit.administrator, which).empty());
  CHECK(move(unit.auditor, invite) == "not_allowed");
  for (const auto which : {vet, redate, close}) CHECK(move(unit.consultant, which).empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("an auditor takes checkpoints and records nothing", "[accounts]") {
  NamedUnit unit;
  value_of(ledger::issue_checkpoint(unit.ledger, unit.auditor));
  CHECK(code_of(unit.record_as(unit.auditor, "E2")) == "not_allowed");
  CHECK(code_of(ledger::report_death(unit.ledger, unit.auditor, "H1", day("2026-03-12"))) == "not_allowed");
}

TEST_CASE("only a consultant names and withdraws accounts, and one is left", "[accounts]") {
  NamedUnit unit;
  CHECK(code_of(ledger::name_account(unit.ledger, unit.administrator, {"smith", "Jo Smith", Role::consultant},
                                     "wants to")) == "not_allowed");
  CHECK(code_of(ledger::withdraw_account(unit.ledger, unit.consultant, "rao", "retires")) ==
        "last_consultant");
  CHECK(code_of(ledger::name_account(unit.ledger, unit.consultant, {"rao", "Dr Rao", Role::auditor},
                                     "retires")) == "last_consultant");
  CHECK(code_of(ledger::withdraw_account(unit.ledger, unit.consultant, "nobody", "x")) == "unknown_account");
  value_of(ledger::withdraw_account(unit.ledger, unit.consultant, "smith", "left"));
  CHECK(code_of(unit.record_as(unit.administrator, "E2")) == "unknown_account");
  CHECK(value_of(ledger::accounts(unit.ledger)).size() == 2);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("an entry of an account that may not write it is found by verification", "[accounts]") {
  NamedUnit unit;
  // As a program would write it that checks nothing, with the right link and hash.
  const auto head = value_of(unit.ledger.checkpoint());
  ledger::Entry entry{
      head.size + 1,   "2026-03-20T10:00:00.000Z",
      "smith",         "account named",
      "account:smith", R"({"account":"smith","name":"Jo Smith","reason":"x","role":"consultant"})",
      head.head,       {}};
  entry.hash = ledger::hash_of(entry);
  const std::string number = std::to_string(entry.sequence);
  run_sql(unit.path, "INSERT INTO entries VALUES (" + number + ", '" + entry.at +
                         "', 'smith', 'account named', 'account:smith', '" + entry.body + "', x'" +
                         engine::hexadecimal(entry.previous) + "', x'" + engine::hexadecimal(entry.hash) +
                         "'); UPDATE accounts SET role = 'consultant', entry = " + number +
                         " WHERE account = 'smith'");
  CHECK(faults_of(unit.path) ==
        "accounts " + number + ": `smith` is administrator: `account named` is not theirs to write\n");
}

TEST_CASE("the table of rights is the one of the documentation", "[accounts]") {
  using enum ledger::Kind;
  struct Row {
    const char* because;
    ledger::Kind kind;
    bool administrator, auditor;
  };
  const auto row = GENERATE(values<Row>({
      {"an examination comes in", examination_recorded, true, false},
      {"the next step of a signed plan opens", recall_opened, true, false},
      {"an invitation", recall_invited, true, false},
      {"a death", person_died, true, false},
      {"a letter", letter_issued, true, false},
      {"a signature", advice_signed, false, false},
      {"a decision against the advice", advice_overridden, false, false},
      {"vetting", recall_vetted, false, false},
      {"another date", recall_redated, false, false},
      {"closing", recall_closed, false, false},
      {"a merge", person_merged, false, false},
      {"a protocol", protocol_adopted, false, false},
      {"an account", account_named, false, false},
      {"a backup", backup, true, true},
      {"a checkpoint", checkpoint, true, true},
  }));
  INFO(row.because);
  CHECK(ledger::may_write(Role::consultant, row.kind));
  CHECK(ledger::may_write(Role::administrator, row.kind) == row.administrator);
  CHECK(ledger::may_write(Role::auditor, row.kind) == row.auditor);
}
