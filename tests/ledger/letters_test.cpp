// Which letters are owed, which are refused, and what becomes of one that went out.

#include "ledger/letters.h"

#include <catch2/catch.hpp>

#include "ledger/people.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

const ledger::LetterKey to_patient{"E1", "result", "patient"};

std::string only_recall(const TemporaryLedger& unit) {
  const auto open =
      value_of(ledger::due(unit.ledger, {day("2020-01-01"), day("2040-01-01")}, unit.clock.today(), {}));
  REQUIRE(open.size() == 1);
  return open.front().recall;
}

/// E1 of H1, with an adenoma: due on 2029-03-10.
struct SignedUnit : TemporaryLedger {
  SignedUnit() {
    record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
    sign("E1");
  }
  std::string sign(const std::string& exam) {
    return value_of(ledger::sign(ledger, author, exam, "Dr Rao", 0)).recall;
  }
  std::string decide(engine::Action action, const std::string& from) {
    std::optional<engine::Window> due;
    if (!from.empty()) due = engine::Window{day(from), day(from)};
    return value_of(ledger::override_advice(ledger, author, "E1", "Dr Rao", {action, due, "frail"}, 0))
        .recall;
  }
  void move(const std::string& recall, ledger::Move move, const ledger::MoveDetails& details) {
    value_of(ledger::move_recall(ledger, author, recall, move, details));
  }
  engine::Result<std::uint64_t> issue(const ledger::LetterKey& key,
                                      const ledger::Permission& permission = {}) {
    const auto facts = ledger::letter_facts(ledger, key, permission);
    if (!facts) return facts.errors();
    return ledger::issue_letter(ledger, author, {key, facts->tells, "Dear Ada", permission});
  }
  std::string why_not(const ledger::LetterKey& key) { return code_of(ledger::letter_facts(ledger, key, {})); }
  /// `result to patient`, ... with commas between.
  std::string owed() {
    std::string line;
    for (const ledger::OwedLetter& letter : value_of(ledger::letters_owed(ledger, {}))) {
      line += (line.empty() ? "" : ", ") + letter.key.letter + " to " + letter.key.recipient;
      if (!letter.obstacle.empty()) line += " (but)";
    }
    const auto counted = value_of(ledger::sweep(ledger, clock.today())).letters_owed;
    CHECK(counted == value_of(ledger::letters_owed(ledger, {})).size());
    return line;
  }
  std::vector<ledger::LetterLine> again() { return value_of(ledger::letters_to_send_again(ledger, {})); }
  ~SignedUnit() { CHECK(faults_of(path).empty()); }
};

const std::string both_results = "result to patient, result to family doctor";

}  // namespace

TEST_CASE("a signature owes a letter to the patient and one to the family doctor, each once", "[letter]") {
  SignedUnit unit;
  CHECK(unit.owed() == both_results);
  const auto entry = value_of(unit.issue(to_patient));
  CHECK(unit.owed() == "result to family doctor");
  CHECK(value_of(ledger::letter_text(unit.ledger, entry)) == "Dear Ada");
  CHECK(code_of(unit.issue(to_patient)) == "letter_issued");
  CHECK(unit.issue(to_patient, {"lost in the post", ""}));
  CHECK(unit.owed() == "result to family doctor");
  CHECK(code_of(ledger::letter_text(unit.ledger, 1)) == "unknown_letter");
}

TEST_CASE("a letter says what was signed", "[letter]") {
  SignedUnit unit;
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_patient, {}));
  CHECK(facts.action == engine::Action::surveillance_colonoscopy);
  CHECK(facts.due == engine::Window{day("2029-03-10"), day("2029-03-10")});
  CHECK(facts.interval == engine::Interval{engine::Months{36}, engine::Months{36}});
  CHECK(facts.clinician == "Dr Rao");
  CHECK(facts.signed_on == "2026-03-20");
  CHECK(facts.name.family == "Example");
  CHECK(facts.procedure == "colonoscopy");
  CHECK(facts.polyps.value().most == 1);
  CHECK(facts.polyps_removed);
  CHECK(facts.reasons.at(0).rule == "T-03");
  CHECK(facts.ruleset == "test-a");
  CHECK(value_of(ledger::ruleset_title(unit.ledger, facts.ruleset_digest)) == "Made for tests");
}

TEST_CASE("a letter goes to the address that a record told last", "[letter]") {
  TemporaryLedger unit;
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  unit.record(record);
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const ledger::LetterKey to_doctor{"E1", "result", "family doctor"};
  CHECK(value_of(ledger::letter_facts(unit.ledger, to_patient, {})).address.empty());
  CHECK(value_of(ledger::letter_facts(unit.ledger, to_doctor, {})).doctor.empty());
  record["patient"]["contact"] = {{"address", {"18 Mill Lane", "Ambleworth"}}};
  record["patient"]["family_doctor"] = {
      {"name", "Dr F. Aldous"}, {"practice", "Mill Lane Surgery"}, {"address", {"3 Mill Lane"}}};
  unit.record(record);
  CHECK(value_of(ledger::letter_facts(unit.ledger, to_patient, {})).address ==
        std::vector<std::string>{"18 Mill Lane", "Ambleworth"});
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_doctor, {}));
  CHECK(facts.doctor == "Dr F. Aldous");
  CHECK(facts.address == std::vector<std::string>{"Mill Lane Surgery", "3 Mill Lane"});
}

TEST_CASE("a decision otherwise is told with its date and its reason, and without the guideline's",
          "[letter]") {
  SignedUnit unit;
  unit.decide(engine::Action::repeat_examination, "2026-05-01");
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_patient, {}));
  CHECK(facts.is_overridden);
  CHECK(facts.reason == "frail");
  CHECK(facts.due == engine::Window{day("2026-05-01"), day("2026-05-01")});
  CHECK_FALSE(facts.interval.has_value());
  CHECK(facts.reasons.empty());
}

TEST_CASE("a stop is told by a letter of discharge, and by nothing else", "[letter]") {
  SignedUnit unit;
  CHECK(unit.why_not({"E1", "discharge", "patient"}) == "another_letter");
  unit.decide(engine::Action::no_surveillance, "");
  CHECK(unit.owed() == "discharge to patient, discharge to family doctor");
  CHECK(unit.why_not(to_patient) == "another_letter");
  CHECK(unit.issue({"E1", "discharge", "patient"}));
}

TEST_CASE("no letter tells what is not signed, or not signed any more", "[letter]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const auto why_not = [&] { return code_of(ledger::letter_facts(unit.ledger, to_patient, {})); };
  CHECK(why_not() == "not_signed");
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(why_not().empty());
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", hyperplastic_polyp())}));
  CHECK(why_not() == "advice_superseded");
  CHECK(code_of(ledger::letter_facts(unit.ledger, {"E9", "result", "patient"}, {})) == "unknown_exam");
  CHECK(code_of(ledger::letter_facts(unit.ledger, {"E1", "postcard", "patient"}, {})) == "unknown_letter");
  CHECK(code_of(ledger::letter_facts(unit.ledger, {"E1", "result", "neighbour"}, {})) == "unknown_letter");
}

TEST_CASE("what was decided anew while a letter was made is not noted as sent", "[letter]") {
  SignedUnit unit;
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_patient, {}));
  unit.decide(engine::Action::site_check, "2026-06-01");
  CHECK(code_of(ledger::issue_letter(unit.ledger, unit.author, {to_patient, facts.tells, "Dear Ada", {}})) ==
        "letter_out_of_date");
  CHECK(unit.owed() == both_results);
}

TEST_CASE("a person has to see to letters of those who are gone or in dispute", "[letter]") {
  SignedUnit unit;
  SECTION("who died gets no letter") {
    value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-15")));
    CHECK(unit.why_not(to_patient) == "person_died");
  }
  SECTION("who moved away gets none from here") {
    value_of(ledger::report_move_away(unit.ledger, unit.author, "H1", day("2026-03-15")));
    CHECK(unit.why_not(to_patient) == "person_moved_away");
  }
  SECTION("nor does someone whose identity is in dispute") {
    json other = a_record("H1", "E2", "2026-03-12", {});
    other["patient"]["birth_date"] = "1950-01-01";
    CHECK(unit.record(other).received == ledger::Received::unmatched);
    CHECK(unit.why_not(to_patient) == "identity_in_dispute");
  }
  SECTION("nor someone whose examination another person claims") {
    unit.record(a_record("H2", "E2", "2026-03-12", {}));
    CHECK(unit.record(a_record("H2", "E1", "2026-03-10", {})).received == ledger::Received::unmatched);
    CHECK(unit.why_not(to_patient) == "identity_in_dispute");
  }
  const std::string owed = unit.owed();
  INFO(owed);
  CHECK(owed.find("result to patient (but)") != std::string::npos);
  CHECK(owed.find("result to family doctor (but)") != std::string::npos);
}

TEST_CASE("letters of a merged number go to the survivor", "[letter]") {
  SignedUnit unit;
  json other = a_record("H2", "E2", "2020-03-12", {});
  other["patient"]["name"]["given"] = "Adah";
  unit.record(other);
  value_of(
      ledger::merge_people(unit.ledger, unit.author, unit.protocol, "H2", "H1", {"Dr Rao", "same person"}));
  const auto survivor = value_of(ledger::find_person(unit.ledger, "H2"));
  unit.sign("E1");
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_patient, {}));
  CHECK(facts.person.person == survivor.person);
  CHECK(facts.name.given == "Adah");
}

TEST_CASE("a letter without a name to write to is not made", "[letter]") {
  TemporaryLedger unit;
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  record["patient"].erase("name");
  unit.record(record);
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(code_of(ledger::letter_facts(unit.ledger, to_patient, {})) == "no_name");
}

TEST_CASE("a patient hears of a cancer from a person first, the family doctor by letter", "[letter]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", json{{"type", "adenocarcinoma"}})}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  CHECK(code_of(ledger::letter_facts(unit.ledger, to_patient, {})) == "person_first");
  CHECK(value_of(ledger::letters_owed(unit.ledger, {})).at(0).obstacle.find("cancer") != std::string::npos);
  CHECK(ledger::letter_facts(unit.ledger, to_patient, {"", "Dr Rao"}));
  CHECK(ledger::letter_facts(unit.ledger, {"E1", "result", "family doctor"}, {}));
}

TEST_CASE("a later examination overtakes the letters about an earlier one", "[letter]") {
  SignedUnit unit;
  unit.record(a_record("H1", "E2", "2026-03-19", {}));
  CHECK(unit.why_not(to_patient) == "later_examination");
  CHECK(unit.owed().empty());
  unit.sign("E2");
  CHECK(unit.owed() == "discharge to patient, discharge to family doctor");
}

TEST_CASE("each attempt by letter owes its letter, until it is made or the person answers", "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  value_of(unit.issue({"E1", "result", "family doctor"}));
  const std::string recall = only_recall(unit);
  const auto invite = [&] {
    unit.move(recall, ledger::Move::invite, {"", "", "", {}, {}, {}, {}, "Dr Rao"});
  };
  CHECK(unit.why_not({"E1", "invitation", "patient"}) == "not_invited");
  invite();
  CHECK(unit.owed() == "invitation to patient");
  const auto facts = value_of(ledger::letter_facts(unit.ledger, {"E1", "invitation", "patient"}, {}));
  CHECK(facts.recall == recall);
  CHECK(facts.attempt == 1);
  CHECK(facts.due == engine::Window{day("2029-03-10"), day("2029-03-10")});
  value_of(unit.issue({"E1", "invitation", "patient"}));
  CHECK(unit.owed().empty());
  struct Row {
    const char* because;
    const char* owed;
    ledger::LetterKey key;
  };
  for (const Row& row :
       {Row{"the second letter is a reminder", "reminder to patient", {"E1", "reminder", "patient"}},
        Row{"the telephone needs none", "", {}},
        Row{"the family doctor is asked to help",
            "reminder to family doctor",
            {"E1", "reminder", "family doctor"}},
        Row{"the final attempt is a letter", "reminder to patient", {"E1", "reminder", "patient"}}}) {
    INFO(row.because);
    invite();
    CHECK(unit.owed() == row.owed);
    if (!row.key.exam.empty()) value_of(unit.issue(row.key));
    CHECK(unit.owed().empty());
  }
  unit.move(recall, ledger::Move::redate, {"Dr Rao", "earlier", "", day("2028-01-01"), {}, {}});
  invite();
  CHECK(value_of(ledger::letter_facts(unit.ledger, {"E1", "invitation", "patient"}, {})).due->from ==
        day("2028-01-01"));
  unit.move(recall, ledger::Move::book, {"", "", "", {}, {}, day("2028-01-02")});
  CHECK(unit.why_not({"E1", "invitation", "patient"}) == "not_invited");
}

TEST_CASE("the later step of a plan is invited to by its own date", "[letter]") {
  TemporaryLedger unit;
  unit.protocol = {small_ruleset(
      "test-plan", R"(if exam.indication = "site check" then )" +
                       small_answer("return to screening", "", "", "T-02") +
                       R"( else {action: "site check", from: duration("P2M"), to: duration("P6M"),
        counted from: null, counted from date: null, then: [{action: "surveillance colonoscopy",
        from: duration("P1Y"), to: duration("P1Y"), counted from: null, rule: "T-03", because: "the plan"}],
        rule: "T-01", because: "the test says so", also: [], ask instead: null})")};
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  json check = a_record("H1", "E2", "2026-05-20", {});
  check["exam"]["indication"] = "site check";
  unit.record(check);
  const std::string recall = only_recall(unit);
  value_of(ledger::move_recall(unit.ledger, unit.author, recall, ledger::Move::invite, {}));
  const ledger::LetterKey invitation{"E2", "invitation", "patient"};
  const auto facts = value_of(ledger::letter_facts(unit.ledger, invitation, {}));
  CHECK(facts.action == engine::Action::surveillance_colonoscopy);
  CHECK(facts.due == engine::Window{day("2027-05-20"), day("2027-05-20")});
  CHECK(facts.clinician == "Dr Rao");
  CHECK_FALSE(facts.interval.has_value());
  value_of(ledger::issue_letter(unit.ledger, unit.author, {invitation, facts.tells, "Dear Ada", {}}));
  // The plan was signed for the first examination: when that changes, so does the invitation.
  unit.record(a_record("H1", "E1", "2026-03-10",
                       {a_lesion("L1", tubular_adenoma()), a_lesion("L2", tubular_adenoma())}));
  CHECK(value_of(ledger::letters_to_send_again(unit.ledger, {})).size() == 1);
  CHECK(code_of(ledger::letter_facts(unit.ledger, invitation, {})) == "advice_superseded");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a date that a clinician moves makes the letter wrong, and the next one right", "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  const std::string recall = only_recall(unit);
  unit.move(recall, ledger::Move::redate, {"Dr Lee", "anxious", "", day("2028-03-10"), {}, {}});
  REQUIRE(unit.again().size() == 1);
  CHECK(unit.again().front().because == "the date was moved to 2028-03-10");
  CHECK(unit.owed() == both_results);
  const auto facts = value_of(ledger::letter_facts(unit.ledger, to_patient, {}));
  CHECK(facts.due->from == day("2028-03-10"));
  CHECK(facts.moved.value().clinician == "Dr Lee");
  CHECK_FALSE(facts.interval.has_value());
  SECTION("it is made again without a reason") {
    value_of(unit.issue(to_patient));
    CHECK(unit.again().empty());
  }
  SECTION("or the date is moved back") {
    unit.move(recall, ledger::Move::redate, {"Dr Lee", "less anxious", "", day("2029-03-10"), {}, {}});
    CHECK(unit.again().empty());
  }
}

TEST_CASE("a recall that a clinician closes leaves a letter that is not right", "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  const std::string recall = only_recall(unit);
  const ledger::MoveDetails closing{"Dr Rao", "declined", "", {}, {}, {}};
  SECTION("it waits to be sent again, and is not made by itself") {
    unit.move(recall, ledger::Move::close, closing);
    REQUIRE(unit.again().size() == 1);
    CHECK(unit.again().front().because == "recall " + recall + " was closed: declined");
    CHECK(unit.why_not(to_patient) == "recall_ended");
    CHECK(unit.owed() == "result to family doctor (but)");
    unit.move(recall, ledger::Move::reopen, {"", "changed her mind", "", {}, {}, {}});
    CHECK(unit.again().empty());
  }
  SECTION("but nobody writes again to someone who died") {
    value_of(ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-15")));
    unit.move(recall, ledger::Move::close, closing);
    CHECK(unit.again().empty());
  }
}

TEST_CASE("what was decided of someone who was gone comes up again when that is taken back", "[letter]") {
  SignedUnit unit;
  const std::string recall = only_recall(unit);
  const bool died = GENERATE(true, false);
  const std::string status = died ? "died 2026-03-15" : "moved away 2026-03-15";
  const auto go = [&] {
    value_of(died ? ledger::report_death(unit.ledger, unit.author, "H1", day("2026-03-15"))
                  : ledger::report_move_away(unit.ledger, unit.author, "H1", day("2026-03-15")));
  };
  const auto come_back = [&] {
    value_of(died ? ledger::report_alive(unit.ledger, unit.author, "H1", "rang up")
                  : ledger::report_move_back(unit.ledger, unit.author, "H1", "rang up"));
  };
  const auto close = [&] { unit.move(recall, ledger::Move::close, {"Dr Rao", "gone", "", {}, {}, {}}); };
  const auto again = [&] {
    std::string because;
    for (const ledger::LetterLine& line : unit.again()) because += line.because + "\n";
    CHECK(value_of(ledger::sweep(unit.ledger, unit.clock.today())).letters_again == unit.again().size());
    return because;
  };
  SECTION("a letter told of a recall that was closed, until another is noted") {
    value_of(unit.issue(to_patient));
    go();
    close();
    CHECK(again().empty());
    come_back();
    CHECK(again() == "recall " + recall + " was closed after `" + status + "` was noted: gone\n");
    CHECK(unit.owed() == "result to family doctor (but)");
    go();
    CHECK(again().empty());
    come_back();
    value_of(ledger::note_letter(unit.ledger, unit.author, {"E1", "result", "patient", "Dear Ada"}));
    CHECK(again().empty());
  }
  SECTION("or until the recall is reopened") {
    value_of(unit.issue(to_patient));
    go();
    close();
    come_back();
    unit.move(recall, ledger::Move::reopen, {"", "is here", "", {}, {}, {}});
    CHECK(again().empty());
  }
  SECTION("a letter about a recall that was closed before stays on the list") {
    value_of(unit.issue(to_patient));
    close();
    go();
    CHECK(again() == "recall " + recall + " was closed: gone\n");
  }
  SECTION("a letter that was withheld is owed, also when its step was signed anew meanwhile") {
    go();
    value_of(ledger::withhold_letter(unit.ledger, unit.author, to_patient, "gone"));
    CHECK(unit.owed() == "result to family doctor (but)");
    if (GENERATE(true, false)) {
      auto larger = a_lesion("L1", tubular_adenoma());
      larger["size_mm"] = 9;
      unit.record(a_record("H1", "E1", "2026-03-10", {larger}));
      unit.sign("E1");
    }
    come_back();
    CHECK(unit.owed() == both_results);
    CHECK(value_of(ledger::letters_owed(unit.ledger, {})).front().because ==
          "withheld on 2026-03-20 after `" + status + "` was noted: gone");
    value_of(unit.issue(to_patient));
    CHECK(unit.owed() == "result to family doctor");
  }
  SECTION("an invitation that was withheld is owed while the attempt stands") {
    value_of(unit.issue(to_patient));
    value_of(unit.issue({"E1", "result", "family doctor"}));
    unit.move(recall, ledger::Move::vet, {"Dr Rao", "", "", {}, {}, {}});
    unit.move(recall, ledger::Move::invite, {"", "", "letter", {}, {}, {}});
    const ledger::LetterKey invitation{"E1", "invitation", "patient"};
    go();
    value_of(ledger::withhold_letter(unit.ledger, unit.author, invitation, "gone"));
    CHECK(unit.owed().empty());
    come_back();
    CHECK(unit.owed() == "invitation to patient");
    value_of(unit.issue(invitation));
    CHECK(unit.owed().empty());
  }
}

TEST_CASE("a recall that was closed for the death of another person comes up when their merge is reversed",
          "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  unit.record(a_record("H2", "E2", "2026-03-10", {}));  // of one day: neither comes before the other
  value_of(ledger::report_death(unit.ledger, unit.author, "H2", day("2026-03-15")));
  const ledger::PersonDecision decision{"Dr Rao", "one person"};
  const auto merged =
      value_of(ledger::merge_people(unit.ledger, unit.author, unit.protocol, "H1", "H2", decision));
  unit.move(only_recall(unit), ledger::Move::close, {"Dr Rao", "died", "", {}, {}, {}});
  CHECK(unit.again().empty());
  value_of(ledger::reverse_merge(unit.ledger, unit.author, unit.protocol, merged.merged, decision));
  REQUIRE(unit.again().size() == 1);
  CHECK(unit.again().front().examination.exam == "E1");
}

TEST_CASE("a letter whose advice was superseded is wrong until a step is signed, whatever else is taken back",
          "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  const std::string recall = only_recall(unit);
  const auto amend = [&] {
    auto larger = a_lesion("L1", tubular_adenoma());
    larger["size_mm"] = 9;
    unit.record(a_record("H1", "E1", "2026-03-10", {larger}));
  };
  SECTION("a date that was moved and is moved back") {
    unit.move(recall, ledger::Move::redate, {"Dr Lee", "anxious", "", day("2028-03-10"), {}, {}});
    amend();
    unit.move(recall, ledger::Move::redate, {"Dr Lee", "less anxious", "", day("2029-03-10"), {}, {}});
  }
  SECTION("a recall that was closed and is reopened") {
    unit.move(recall, ledger::Move::close, {"Dr Rao", "declined", "", {}, {}, {}});
    amend();
    unit.move(recall, ledger::Move::reopen, {"", "changed her mind", "", {}, {}, {}});
  }
  REQUIRE(unit.again().size() == 1);
  CHECK(unit.again().front().because == "the examination was amended");
  unit.sign("E1");
  CHECK(unit.again().empty());
}

TEST_CASE("a discharge takes the place of a result that is not right any more", "[letter]") {
  SignedUnit unit;
  value_of(unit.issue(to_patient));
  unit.decide(engine::Action::no_surveillance, "");
  CHECK(unit.again().size() == 1);
  value_of(unit.issue({"E1", "discharge", "patient"}));
  CHECK(unit.again().empty());
  CHECK(unit.owed() == "discharge to family doctor");
}

TEST_CASE("a letter that is withheld is not owed, until another step is signed", "[letter]") {
  SignedUnit unit;
  CHECK(code_of(ledger::withhold_letter(unit.ledger, unit.author, to_patient, "")) == "reason_missing");
  value_of(ledger::withhold_letter(unit.ledger, unit.author, to_patient, "told in clinic"));
  CHECK(unit.owed() == "result to family doctor");
  CHECK(unit.why_not(to_patient) == "letter_withheld");
  unit.decide(engine::Action::site_check, "2026-06-01");
  CHECK(unit.owed() == both_results);
  CHECK(unit.again().empty());
  CHECK(unit.issue(to_patient));
}
