#include "ledger/particulars.h"

#include <catch2/catch.hpp>

#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using nlohmann::json;

namespace {

/// The particulars of the only recall of the unit.
ledger::Particulars only(const TemporaryLedger& unit) {
  const auto lines = value_of(
      ledger::due(unit.ledger, {engine::Date{2000, 1, 1}, engine::Date{2100, 1, 1}}, {2026, 3, 20}, {}));
  REQUIRE(lines.size() == 1);
  return value_of(ledger::particulars_of(unit.ledger, lines.at(0)));
}

json planned(const std::string& exam, const std::string& date) {
  return a_record("H1", exam, date, {a_lesion("L1", tubular_adenoma())});
}

void sign(TemporaryLedger& unit, const char* exam) {
  value_of(ledger::sign(unit.ledger, unit.author, exam, "Dr Rao", 0));
}

}  // namespace

TEST_CASE("a list tells how a person is reached, by what their records told last", "[lists]") {
  TemporaryLedger unit;
  json first = planned("E1", "2026-03-10");
  first["patient"]["contact"] = {{"telephone", "01632 960001"}, {"address", {"1 Mill Lane", "Ambleworth"}}};
  first["patient"]["family_doctor"] = {{"name", "Dr F. Aldous"}, {"practice", "Mill Lane Surgery"}};
  unit.record(first);
  sign(unit, "E1");
  ledger::Particulars found = only(unit);
  CHECK(found.reached_at.telephone == "01632 960001");
  CHECK(found.reached_at.email.empty());
  CHECK(found.reached_at.address == std::vector<std::string>{"1 Mill Lane", "Ambleworth"});
  CHECK(found.family_doctor.name == "Dr F. Aldous");

  // Another telephone; nothing about the address. Another doctor, whose practice is not told.
  json later = planned("E1", "2026-03-10");
  later["patient"]["contact"] = {{"telephone", "01632 960002"}};
  later["patient"]["family_doctor"] = {{"name", "Dr N. Oyelaran"}};
  unit.record(later);
  found = only(unit);
  CHECK(found.reached_at.telephone == "01632 960002");
  CHECK(found.reached_at.address == std::vector<std::string>{"1 Mill Lane", "Ambleworth"});
  CHECK(found.family_doctor.name == "Dr N. Oyelaran");
  CHECK(found.family_doctor.practice.empty());

  // An older examination fills what is not known, and replaces nothing.
  json older = a_record("H1", "E0", "2020-01-01", {});
  older["patient"]["contact"] = {{"telephone", "01632 960003"}, {"email", "ada@example.org"}};
  older["patient"]["family_doctor"] = {{"name", "Dr P. Quayle"}};
  unit.record(older);
  found = only(unit);
  CHECK(found.reached_at.telephone == "01632 960002");
  CHECK(found.reached_at.email == "ada@example.org");
  CHECK(found.family_doctor.name == "Dr N. Oyelaran");
}

TEST_CASE("a person whose records tell no contact has none, and is described as before there was one",
          "[lists]") {
  TemporaryLedger unit;
  unit.record(planned("E1", "2026-03-10"));
  sign(unit, "E1");
  CHECK(only(unit).reached_at.address.empty());
  CHECK(only(unit).family_doctor.name.empty());
  for (const ledger::Entry& entry : unit.entries()) {
    if (entry.kind == "person registered") CHECK_FALSE(json::parse(entry.body).contains("contact"));
  }
}

TEST_CASE("what went wrong at the last colonoscopy is told before the next", "[lists]") {
  TemporaryLedger unit;
  json poor = planned("E1", "2023-03-10");
  poor["exam"]["preparation"] = {{"graded", "poor"}};
  poor["patient"]["needs"] = {{{"flag", "pacemaker"}, {"since", "2020-05-01"}, {"source", "letter"}},
                              {{"flag", "anticoagulant"}}};
  unit.record(poor);
  sign(unit, "E1");
  json sigmoidoscopy = a_record("H1", "E2", "2023-06-10", {a_lesion("L1", tubular_adenoma())});
  sigmoidoscopy["exam"]["procedure"] = "flexible sigmoidoscopy";
  sigmoidoscopy["exam"]["indication"] = "symptoms";
  unit.record(sigmoidoscopy);
  sign(unit, "E2");  // it answered the recall; its own plan opens the next
  const auto needs = only(unit).needs;
  REQUIRE(needs.size() == 3);
  CHECK(needs[0].flag == "anticoagulant");
  CHECK(needs[1].flag == "poor preparation last time");
  CHECK(needs[1].source == "examination E1 on 2023-03-10");
  CHECK(needs[2].flag == "pacemaker");
  CHECK(needs[2].since == "2020-05-01");
}
