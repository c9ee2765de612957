#include <catch2/catch.hpp>

#include "ledger/letters.h"
#include "ledger/lists.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

ledger::Receipt withdraw(TemporaryLedger& unit) {
  return value_of(ledger::withdraw_histology(unit.ledger, unit.author, unit.protocol,
                                             {"E1", {}, "wrong patient's slide"}));
}

}  // namespace

TEST_CASE("histology that was withdrawn is awaited again, and the advice is given again", "[result]") {
  TemporaryLedger unit;
  const bool as_result = GENERATE(true, false);
  INFO("it came " << (as_result ? "as a result" : "in the record"));
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", as_result ? json() : tubular_adenoma())}));
  if (as_result) unit.result(a_result("E1", "L1", tubular_adenoma()));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(value_of(ledger::awaiting(unit.ledger, day("2026-03-20"), {})).empty());
  const auto receipt = withdraw(unit);
  CHECK(receipt.answers.at(receipt.chosen).state == engine::AdviceState::awaiting_pathology);
  CHECK(receipt.notes.front() == "the advice was signed; the new one must be signed");
  CHECK(value_of(ledger::awaiting(unit.ledger, day("2026-03-20"), {})).size() == 1);
  CHECK(unit.kinds(receipt.entry) == "histology withdrawn, advice given, advice superseded");
  const auto again = unit.result(a_result("E1", "L1", hyperplastic_polyp()));
  CHECK(again.received == ledger::Received::entered);
  CHECK(value_of(ledger::awaiting(unit.ledger, day("2026-03-20"), {})).empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("the same report again after it was withdrawn counts as a new one", "[result]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  withdraw(unit);
  CHECK(unit.result(a_result("E1", "L1", tubular_adenoma())).received == ledger::Received::entered);
}

TEST_CASE("what cannot be withdrawn says why", "[result]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  struct Row {
    const char* because;
    ledger::Withdrawal withdrawal;
    const char* code;
  };
  const std::vector<Row> rows = {
      {"nothing has come yet", {"E1", {}, "why"}, "nothing_to_withdraw"},
      {"another pot", {"E1", {"Z"}, "why"}, "unknown_pot"},
      {"another examination", {"E9", {}, "why"}, "unknown_exam"},
      {"without a reason", {"E1", {}, ""}, "reason_missing"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    CHECK(code_of(ledger::withdraw_histology(unit.ledger, unit.author, unit.protocol, row.withdrawal)) ==
          row.code);
  }
}

TEST_CASE("only the pots that are named lose their histology", "[result]") {
  TemporaryLedger unit;
  json second = a_lesion("L2", hyperplastic_polyp());
  second["specimen"] = "B";
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma()), second}));
  value_of(ledger::withdraw_histology(unit.ledger, unit.author, unit.protocol, {"E1", {"B"}, "mixed up"}));
  const auto lines = value_of(ledger::awaiting(unit.ledger, day("2026-03-20"), {}));
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().pots == "B 26HE1B (1 lesion)");
}

TEST_CASE("a letter that is not right any more is sent again, until another is noted", "[letter]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const ledger::Letter letter{"E1", "result", "patient", "Dear Ms Example, the next one is due in 2029."};
  CHECK(code_of(ledger::note_letter(unit.ledger, unit.author, letter)) == "not_signed");
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  value_of(ledger::note_letter(unit.ledger, unit.author, letter));
  const auto again = [&] { return value_of(ledger::letters_to_send_again(unit.ledger, {})).size(); };
  CHECK(again() == 0);
  withdraw(unit);
  CHECK(again() == 1);
  SECTION("the same next step is signed: the letter is right") {
    unit.result(a_result("E1", "L1", tubular_adenoma()));
    value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
    CHECK(again() == 0);
  }
  SECTION("another next step is signed: another letter goes out") {
    unit.result(a_result("E1", "L1", hyperplastic_polyp()));
    value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
    CHECK(again() == 1);
    value_of(ledger::note_letter(unit.ledger, unit.author, {"E1", "result", "patient", "A correction."}));
    CHECK(again() == 0);
  }
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a letter without its name, recipient or text is not noted", "[letter]") {
  TemporaryLedger unit;
  const auto noted = ledger::note_letter(unit.ledger, unit.author, {"E1", "", "", ""});
  REQUIRE_FALSE(noted);
  CHECK(noted.errors().size() == 3);
}
