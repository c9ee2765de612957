// Text that is not UTF-8 would make an entry that nobody can read back.

#include "utf8.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/records.h"
#include "support/verified.h"

using namespace support;

TEST_CASE("bytes that are no text are shown as such", "[utf8]") {
  struct Row {
    const char* because;
    const char* given;
    const char* as_text;
  };
  const auto row = GENERATE(values<Row>({
      {"plain", "monday.json", "monday.json"},
      {"UTF-8", "M\xC3\xBCller.json", "M\xC3\xBCller.json"},
      {"Latin-1", "M\xFCller.json", "M\xEF\xBF\xBDller.json"},
      {"cut off", "M\xC3", "M\xEF\xBF\xBD"},
      {"a surrogate", "\xED\xA0\x80", "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"},
      {"nothing", "", ""},
  }));
  INFO(row.because);
  CHECK(ledger::as_utf8(row.given) == row.as_text);
  CHECK(ledger::is_utf8(row.given) == (std::string(row.given) == row.as_text));
}

TEST_CASE("a file of any name is taken in, and the ledger stays sound", "[utf8]") {
  TemporaryLedger unit;
  const std::string name = "M\xFCller.json";
  const std::string record = a_record("H1", "E1", "2026-03-10", {}).dump();
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, record, name));
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "no record", name));
  value_of(ledger::result(unit.ledger, unit.author, unit.protocol, "no result", name));
  const auto entries = unit.entries();
  CHECK(std::count_if(entries.begin(), entries.end(),
                      [](const auto& e) { return e.kind == "input refused"; }) == 2);
  CHECK(std::count_if(entries.begin(), entries.end(),
                      [](const auto& e) { return e.kind == "examination recorded"; }) == 1);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a name or reason that is no text is refused, and nothing is written", "[utf8]") {
  TemporaryLedger unit;
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "no record", "x"));
  const auto refused = ledger::settle_input(unit.ledger, unit.author, 1, "M\xFCller rang");
  REQUIRE(code_of(refused) == "not_utf8");
  CHECK_FALSE(refused.errors().front().help.empty());
  const ledger::Author author{"m\xFCller", unit.clock};
  CHECK(code_of(ledger::settle_input(unit.ledger, author, 1, "rang")) == "not_utf8");
  CHECK(unit.entries().size() == 1);
  CHECK(faults_of(unit.path).empty());
}
