#include "ledger/revet.h"

#include <catch2/catch.hpp>

#include "ledger/checkpoint.h"
#include "ledger/signing.h"
#include "support/linked_protocol.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;

namespace {

const engine::Date today{2026, 3, 20};

ledger::Protocol always(const std::string& action, const std::string& months) {
  return {small_ruleset("test-new", small_answer(action, months, months, "T-01"))};
}

/// An adenoma: surveillance after three years, signed. Nothing found: back to screening, signed.
void fill(TemporaryLedger& unit) {
  unit.record(a_record("H1", "adenoma", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  unit.record(a_record("H2", "clear", "2026-03-10", {}));
  for (const char* exam : {"adenoma", "clear"})
    value_of(ledger::sign(unit.ledger, unit.author, exam, "Dr Rao", 0));
}

/// `adenoma sooner -730; clear starts 0; `
std::string told(const ledger::Revetted& found) {
  std::string text;
  for (const ledger::RevetLine& line : found.moved) {
    text +=
        line.exam + " " + std::string(ledger::text_of(line.shift)) + " " + std::to_string(line.days) + "; ";
  }
  return text;
}

}  // namespace

TEST_CASE("re-vetting says who moves, and which way", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  struct Row {
    const char* because;
    const char *action, *months;
    const char* moved;
    std::uint64_t unchanged;
  };
  // 2029-03-10 is 1096 days from 2026-03-10, 2027-03-10 365, and 2031-03-10 1826.
  const auto row = GENERATE(values<Row>({
      {"a year for everyone", "surveillance colonoscopy", "P1Y", "clear starts 0; adenoma sooner -731; ", 0},
      {"five years", "surveillance colonoscopy", "P5Y", "clear starts 0; adenoma later 730; ", 0},
      {"three years for everyone", "surveillance colonoscopy", "P3Y", "clear starts 0; ", 1},
      {"no surveillance for anyone", "return to screening", "", "adenoma stops 0; ", 1},
      {"another kind of stop", "no surveillance", "", "clear other 0; adenoma stops 0; ", 0},
      {"a referral for everyone", "refer", "", "adenoma other 0; clear other 0; ", 0},
      {"another examination on the same day", "repeat examination", "P3Y",
       "clear starts 0; adenoma other 0; ", 0},
  }));
  INFO(row.because);
  const auto found = value_of(ledger::revet(unit.ledger, always(row.action, row.months), today, 1));
  CHECK(told(found) == row.moved);
  CHECK(found.count(ledger::Shift::unchanged) == row.unchanged);
  CHECK(found.read() == 2);
}

TEST_CASE("re-vetting under the rulesets in force moves no one", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  const auto found = value_of(ledger::revet(unit.ledger, unit.protocol, today, 2));
  CHECK(found.moved.empty());
  CHECK(found.count(ledger::Shift::unchanged) == 2);
}

TEST_CASE("re-vetting writes nothing", "[revet]") {
  TemporaryLedger unit;
  fill(unit);
  const auto before = value_of(unit.ledger.checkpoint());
  value_of(ledger::revet(unit.ledger, always("surveillance colonoscopy", "P1Y"), today, 2));
  CHECK(value_of(unit.ledger.checkpoint()) == before);
}

TEST_CASE("any number of threads finds the same", "[revet]") {
  TemporaryLedger unit;
  for (int i = 0; i < 1100; ++i) {  // more than one thread takes at a time
    const std::string exam = "E" + std::to_string(i);
    unit.record(a_record("H" + std::to_string(i), exam, "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    value_of(ledger::sign(unit.ledger, unit.author, exam, "Dr Rao", 0));
  }
  const auto protocol = always("surveillance colonoscopy", "P1Y");
  const std::string alone = told(value_of(ledger::revet(unit.ledger, protocol, today, 1)));
  CHECK(told(value_of(ledger::revet(unit.ledger, protocol, today, 3))) == alone);
  CHECK(value_of(ledger::revet(unit.ledger, protocol, today, 3)).count(ledger::Shift::sooner) == 1100);
}

TEST_CASE("an examination that a later one followed is not advised on again", "[revet]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "first", "2020-03-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "first", "Dr Rao", 0));
  unit.record(a_record("H1", "second", "2026-03-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "second", "Dr Rao", 0));
  const auto found =
      value_of(ledger::revet(unit.ledger, always("surveillance colonoscopy", "P1Y"), today, 1));
  CHECK(told(found) == "second starts 0; ");
}

TEST_CASE("a recall under review is advised on by what is known now", "[revet]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  unit.result(a_result("E1", "L1", hyperplastic_polyp()));  // not signed yet
  const auto found = value_of(ledger::revet(unit.ledger, unit.protocol, today, 1));
  CHECK(told(found) == "E1 stops 0; ");
}

TEST_CASE("a step that another plan has replaced is no later step any more", "[revet]") {
  TemporaryLedger unit;
  unit.protocol = linked_protocol("removal", "examination");
  unit.record(a_record("H1", "E1", "2026-01-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  unit.record(a_record("H1", "E2", "2026-03-10", {}));
  const auto sooner = [&] {
    return told(value_of(ledger::revet(unit.ledger, always("surveillance colonoscopy", "P1M"), today, 1)));
  };
  CHECK(sooner() == "E2 other -393; ");  // the whole plan is another one
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
  CHECK(sooner() == "E2 sooner -21; ");
}

TEST_CASE("re-vetting needs a ruleset", "[revet]") {
  TemporaryLedger unit;
  CHECK(ledger::revet(unit.ledger, {}, today, 1).errors().front().code == "no_ruleset");
}
