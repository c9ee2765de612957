#include "ledger/patients.h"

#include <catch2/catch.hpp>

#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;

TEST_CASE("a history has all entries about a person and no others", "[patient]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  unit.record(a_record("H2", "E2", "2026-03-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const auto history = value_of(ledger::history(unit.ledger, "H1"));
  std::string kinds;
  for (const auto& entry : history.entries) kinds += entry.kind + "; ";
  CHECK(kinds ==
        "person registered; examination recorded; specimen sent; specimen sent; advice given; advice signed; "
        "recall opened; ");
  CHECK(history.person.name == "Example, Ada");
}

TEST_CASE("someone who is not known is not found", "[patient]") {
  TemporaryLedger unit;
  for (const char* text : {"", "H1", "P1", "hospital-number:H1", ":"}) {
    INFO(text);
    const auto found = ledger::history(unit.ledger, text);
    REQUIRE_FALSE(found);
    CHECK(found.errors().front().code == "unknown_person");
  }
}

TEST_CASE("a value that two people have in different systems needs its system", "[patient]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  auto other = a_record("H1", "E2", "2026-03-10", {});
  other["patient"]["identifiers"][0]["system"] = "other-hospital";
  unit.record(other);
  const auto both = ledger::find_person(unit.ledger, "H1");
  REQUIRE_FALSE(both);
  CHECK(both.errors().front().code == "several_people");
  CHECK(both.errors().front().help ==
        "say which system, as in `hospital-number:H1`; it is known in `hospital-number`, `other-hospital`");
  CHECK(value_of(ledger::find_person(unit.ledger, "other-hospital:H1")).person !=
        value_of(ledger::find_person(unit.ledger, "hospital-number:H1")).person);
}
