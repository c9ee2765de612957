#include "letters/fields.h"

#include <catch2/catch.hpp>

#include "support/letters.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

ledger::LetterFacts facts_for(const std::string& recipient) {
  ledger::LetterFacts facts;
  facts.key = {"E1", "result", recipient};
  facts.tells = 118;
  facts.person.person = "P17";
  facts.person.identifiers = "nhs-number 9990000018; hospital-number H12";
  facts.name = {"Dunnersby", "Edith", "Mrs"};
  facts.examination.date = "2026-03-10";
  facts.action = engine::Action::surveillance_colonoscopy;
  facts.due = engine::Window{day("2029-03-10"), day("2029-06-10")};
  facts.clinician = "Dr Rao";
  return facts;
}

json fields_of(const ledger::LetterFacts& facts, const cli::UnitDetails& unit = a_unit()) {
  return cli::letter_fields(facts, {unit, day("2026-03-20"), ""});
}

}  // namespace

TEST_CASE("a letter is addressed to its recipient, by name and address where they are on record",
          "[cli][letter]") {
  ledger::LetterFacts to_patient = facts_for("patient"), to_doctor = facts_for("family doctor");
  CHECK(fields_of(to_patient)["addressee"] == "Mrs Edith Dunnersby");
  CHECK(fields_of(to_patient)["greeting"] == "Dear Mrs Dunnersby");
  CHECK_FALSE(fields_of(to_patient).contains("address"));
  CHECK(fields_of(to_doctor)["addressee"] == "To the family doctor of Mrs Edith Dunnersby");
  CHECK(fields_of(to_doctor)["greeting"] == "Dear Doctor");
  to_patient.address = {"18 Mill Lane", "Ambleworth"};
  to_doctor.doctor = "Dr F. Aldous";
  CHECK(fields_of(to_patient)["address"] == json({"18 Mill Lane", "Ambleworth"}));
  CHECK(fields_of(to_doctor)["addressee"] == "Dr F. Aldous");
  CHECK(fields_of(to_doctor)["greeting"] == "Dear Dr F. Aldous");
}

TEST_CASE("numbers are written as people write them", "[cli][letter]") {
  CHECK(fields_of(facts_for("patient"))["identifiers"] == "NHS number 999 000 0018; hospital number H12");
}

TEST_CASE("what steers a printer or a terminal does not get into a letter", "[cli][letter]") {
  ledger::LetterFacts facts = facts_for("patient");
  facts.name.given = "Edith\x1b[2J\r\nRing nobody";
  const std::string name = fields_of(facts)["patient"];
  for (const char c : name) CHECK(static_cast<unsigned char>(c) >= 0x20);
  CHECK(name.find("Ring nobody") != std::string::npos);
}

TEST_CASE("a window of two dates, of one, and of none is said in words", "[cli][letter]") {
  ledger::LetterFacts facts = facts_for("patient");
  CHECK(fields_of(facts)["window"] == "due between 10 March 2029 and 10 June 2029");
  facts.due->to = facts.due->from;
  CHECK(fields_of(facts)["window"] == "due on 10 March 2029");
  facts.due.reset();
  facts.action = engine::Action::no_surveillance;
  CHECK(fields_of(facts)["window"] == "no date: nothing further is planned");
}

TEST_CASE("who keeps a date that comes with a stop is said", "[cli][letter]") {
  ledger::LetterFacts facts = facts_for("patient");
  facts.action = engine::Action::return_to_screening;
  CHECK(fields_of(facts)["after"].get<std::string>().find("for you and your family doctor to keep") !=
        std::string::npos);
}

TEST_CASE("a medicine that thins the blood is asked about by whatever name it is on record",
          "[cli][letter]") {
  cli::UnitDetails unit = a_unit();
  const auto is_asked_about = [&](const char* need) {
    ledger::LetterFacts facts = facts_for("patient");
    facts.key.letter = "invitation";
    facts.needs = {{need, "", ""}};
    return fields_of(facts, unit).at("medicines").get<std::string>().find("please tell us which one") !=
           std::string::npos;
  };
  CHECK_FALSE(is_asked_about("Apixaban 5 mg"));
  CHECK_FALSE(is_asked_about("pacemaker"));
  SECTION("the program's own names") {}
  SECTION("which names of the unit's own are added to, and never replace") {
    unit.blood_thinners = {"apixaban", "Clopidogrel"};
    CHECK(is_asked_about("Apixaban 5 mg"));
    CHECK(is_asked_about("clopidogrel"));
    CHECK_FALSE(is_asked_about("pacemaker"));
  }
  for (const char* need : {"anticoagulant", "antiplatelet", "on a blood thinner", "Warfarin"})
    CHECK(is_asked_about(need));
}
