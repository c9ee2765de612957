#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/patients.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"
#include "support/verified.h"

using namespace support;
using ledger::Received;
using nlohmann::json;

namespace {

std::string codes(const ledger::Receipt& receipt) {
  std::string line;
  for (const auto& error : receipt.errors)
    line += (line.empty() ? "" : ", ") + error.place.path + ": " + error.code;
  return line;
}

/// The record that the last advice was given on.
json advised(const TemporaryLedger& unit) {
  json record;
  for (const auto& entry : unit.entries()) {
    if (entry.kind == "advice given") record = json::parse(entry.body).at("record");
  }
  return record;
}

json plus(json record, const std::string& changes) {
  record.merge_patch(json::parse(changes));
  return record;
}

}  // namespace

TEST_CASE("a first record registers the person, keeps the record and gives advice", "[record]") {
  TemporaryLedger unit;
  const auto receipt = unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  CHECK(receipt.received == Received::recorded);
  CHECK(receipt.exam == "E1");
  REQUIRE(receipt.answers.size() == 1);
  CHECK(receipt.answers[0].state == engine::AdviceState::settled);
  CHECK(engine::text_of(receipt.answers[0].due.value().from) == "2029-03-10");
  CHECK(unit.kinds() ==
        "ruleset installed, person registered, examination recorded, specimen sent, specimen sent, advice "
        "given");
  const auto entries = unit.entries();
  CHECK(entries[1].subject == "person:P2");
  CHECK(receipt.person == "P2");
  CHECK(receipt.entry == 3);
  CHECK(receipt.advice == 6);
}

TEST_CASE("the bytes are kept as they came", "[record]") {
  TemporaryLedger unit;
  const std::string bytes = "  " + a_record("H1", "E1", "2026-03-10", {}).dump(2) + "\n";
  const auto receipts = value_of(ledger::record(unit.ledger, unit.author, unit.protocol, bytes, "a.json"));
  const json body = json::parse(unit.entries()[receipts.front().entry - 1].body);
  CHECK(value_of(unit.ledger.document(body["document"])) == bytes.substr(0, bytes.size() - 1));
  CHECK(body["source"] == "a.json");
}

TEST_CASE("the same content twice changes nothing", "[record]") {
  TemporaryLedger unit;
  const json record = a_record("H1", "E1", "2026-03-10", {});
  unit.record(record);
  const auto before = unit.entries().size();
  const auto text = GENERATE_COPY(record.dump(), record.dump(4), json{{"id", "x"}, {"given", record}}.dump());
  const auto receipts = value_of(ledger::record(unit.ledger, unit.author, unit.protocol, text, "again"));
  REQUIRE(receipts.size() == 1);
  CHECK(receipts.front().received == Received::already_recorded);
  CHECK(receipts.front().exam == "E1");
  CHECK(unit.entries().size() == before);
}

TEST_CASE("other content for a known examination amends it and supersedes the advice", "[record]") {
  TemporaryLedger unit;
  const json first = a_record("H1", "E1", "2026-03-10", {});
  unit.record(first);
  const auto before = unit.entries().size();
  const json second = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  const auto receipt = unit.record(second);
  CHECK(receipt.received == Received::amended);
  CHECK(unit.kinds(before + 1) == "examination amended, advice given, advice superseded");
  CHECK(engine::text_of(receipt.answers[0].action.value()) == "surveillance colonoscopy");

  // The older content again is a message that came twice, not a correction.
  const auto older = unit.record(first);
  CHECK(older.received == Received::already_recorded);
  REQUIRE(older.notes.size() == 1);
  CHECK(older.notes[0].starts_with("this content was replaced by entry "));
}

TEST_CASE("background told once is not lost when the examination is recorded again without it", "[record]") {
  TemporaryLedger unit;
  const json lynch = {{{"name", "lynch syndrome"}, {"gene", "MLH1"}}};
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  record["patient"]["conditions"] = lynch;
  unit.record(record);
  unit.record(a_record("H1", "E2", "2026-03-15", {}));
  record["patient"].erase("conditions");
  SECTION("with a correction, it stands and the later examination still has it") {
    record["exam"]["lesions"][0]["size_mm"] = 9;
    const auto before = unit.entries().size();
    unit.record(record);
    CHECK(unit.kinds(before + 1) ==
          "examination amended, advice given, advice superseded, advice given, advice superseded");
    for (std::size_t i = before; i < unit.entries().size(); ++i) {
      if (unit.entries()[i].kind == "advice given")
        CHECK(json::parse(unit.entries()[i].body).at("record").at("patient").at("conditions") == lynch);
    }
  }
  SECTION("with what only people see, the advice stands") {
    record["patient"]["contact"] = {{"telephone", "01632 960001"}};
    CHECK(unit.record(record).advice == 0);
  }
  SECTION("an empty list says that there is none") {
    record["patient"]["conditions"] = json::array();
    CHECK(unit.record(record).advice != 0);
    CHECK(advised(unit).at("patient").at("conditions") == json::array());
  }
}

TEST_CASE("earlier examinations told once are not lost when the examination is recorded again without them",
          "[record]") {
  TemporaryLedger unit;
  unit.protocol = {small_ruleset(
      "after-two", "if count(previous) > 0 then " +
                       small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-01") + " else " +
                       small_answer("surveillance colonoscopy", "P3Y", "P3Y", "T-02"))};
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  record["previous"] = {{{"id", "E0"}, {"date", "2021-06-01"}, {"lesions", json::array()}}};
  unit.record(record);
  const auto due = [&] {
    for (auto entry = unit.entries().size(); entry-- > 0;) {
      const ledger::Entry last = unit.entries()[entry];
      if (last.kind == "advice given")
        return json::parse(last.body).at("answers").at(0).at("due").at("from").get<std::string>();
    }
    return std::string();
  };
  CHECK(due() == "2027-03-10");
  record["exam"]["lesions"][0]["size_mm"] = 9;
  SECTION("left out, what was told stands") {
    record.erase("previous");
    unit.record(record);
    CHECK(due() == "2027-03-10");
    CHECK(advised(unit).at("previous").at(0).at("id") == "E0");
    SECTION("also when it is left out again, and for the later examination") {
      record["exam"]["lesions"][0]["size_mm"] = 8;
      unit.record(record);
      CHECK(due() == "2027-03-10");
      unit.record(a_record("H1", "E2", "2026-03-15", {}));
      CHECK(advised(unit).at("previous").at(0).at("id") == "E0");
    }
  }
  SECTION("with what only people see, the advice stands") {
    record["exam"]["lesions"][0]["size_mm"] = 8;
    record.erase("previous");
    record["patient"]["contact"] = {{"telephone", "01632 960001"}};
    const auto before = unit.entries().size();
    unit.record(record);
    CHECK(unit.kinds(before + 1).find("advice") == std::string::npos);
  }
  SECTION("an empty list takes it back") {
    record["previous"] = json::array();
    unit.record(record);
    CHECK(due() == "2029-03-10");
    record.erase("previous");
    record["exam"]["lesions"][0]["size_mm"] = 8;
    unit.record(record);
    CHECK(due() == "2029-03-10");
  }
  SECTION("another list takes its place") {
    record["previous"] = {{{"id", "E5"}, {"date", "2022-06-01"}, {"lesions", json::array()}}};
    unit.record(record);
    CHECK(due() == "2027-03-10");
    CHECK(advised(unit).at("previous").size() == 1);
    CHECK(advised(unit).at("previous").at(0).at("id") == "E5");
  }
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("what only people see takes no signature back", "[record]") {
  struct Row {
    const char* because;
    const char* pointer;
    json value;
  };
  const auto row = GENERATE(values<Row>({
      {"a complication that showed later",
       "/exam/complications",
       {{{"kind", "bleeding"}, {"on", "2026-03-14"}}}},
      {"a telephone", "/patient/contact", {{"telephone", "01632 960001"}}},
      {"a family doctor", "/patient/family_doctor", {{"name", "Dr F. Aldous"}}},
      {"a need", "/patient/needs", {{{"flag", "anticoagulant"}}}},
      {"a name", "/patient/name", {{"family", "Married"}}},
      {"another pot number", "/exam/specimens/0/accession", "26H9"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())});
  unit.record(record);
  unit.record(a_record("H1", "E2", "2026-03-15", {}));  // its record tells of the first
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
  record[json::json_pointer(row.pointer)] = row.value;
  const auto before = unit.entries().size();
  const auto receipt = unit.record(record);
  CHECK(receipt.received == Received::amended);
  CHECK(receipt.advice == 0);
  REQUIRE(receipt.notes.size() == 1);
  CHECK(receipt.notes[0] == "nothing that a rule sees has changed: the advice stands");
  const std::string kinds = unit.kinds(before + 1);
  CHECK(kinds.find("examination amended") != std::string::npos);
  CHECK(kinds.find("advice") == std::string::npos);
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).empty());
}

TEST_CASE("a record that cannot be used is refused, kept and listed", "[record]") {
  struct Row {
    const char* because;
    json record;
    const char* codes;
  };
  const json good = a_record("H1", "E1", "2026-03-10", {});
  const auto row = GENERATE_COPY(values<Row>({
      {"no examination id", plus(good, R"({"exam":{"id":null}})"), "exam.id: missing_key"},
      {"no identifier", plus(good, R"({"patient":{"identifiers":[]}})"), "patient.identifiers: missing_key"},
      {"neither", plus(good, R"({"exam":{"id":null},"patient":{"identifiers":null}})"),
       "exam.id: missing_key, patient.identifiers: missing_key"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  const auto receipt = unit.record(row.record);
  CHECK(receipt.received == Received::refused);
  CHECK(codes(receipt) == row.codes);
  CHECK(unit.kinds() == "input refused");
  const auto waiting = value_of(ledger::waiting_inputs(unit.ledger, {}));
  REQUIRE(waiting.size() == 1);
  CHECK(waiting[0].entry == receipt.entry);
  CHECK(waiting[0].reason == receipt.errors.front().message);
  CHECK(value_of(unit.ledger.document(waiting[0].document)) == row.record.dump());

  CHECK(unit.record(row.record).entry == receipt.entry);
  CHECK(unit.entries().size() == 1);
}

TEST_CASE("a broken line is refused with its number and stops nothing", "[record]") {
  TemporaryLedger unit;
  const std::string lines = a_record("H1", "E1", "2026-03-10", {}).dump() + "\n{broken\n\n" +
                            a_record("H2", "E2", "2026-03-11", {}).dump() + "\n";
  const auto receipts =
      value_of(ledger::record(unit.ledger, unit.author, unit.protocol, lines, "list.jsonl"));
  REQUIRE(receipts.size() == 3);
  CHECK(receipts[0].received == Received::recorded);
  CHECK(receipts[1].received == Received::refused);
  CHECK(receipts[1].line == 2);
  CHECK(receipts[1].errors.front().place.line == 2);
  CHECK(receipts[1].errors.front().place.source == "list.jsonl");
  CHECK(receipts[2].received == Received::recorded);
  CHECK(receipts[2].line == 4);
}

TEST_CASE("a waiting input is taken off the list by a person, with a reason", "[record]") {
  TemporaryLedger unit;
  const auto receipts = value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "{", "x"));
  const auto without = ledger::settle_input(unit.ledger, unit.author, receipts[0].entry, "");
  REQUIRE_FALSE(without);
  CHECK(without.errors().front().code == "reason_missing");
  value_of(ledger::settle_input(unit.ledger, unit.author, receipts[0].entry, "typed in by hand"));
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).empty());
  const auto again = ledger::settle_input(unit.ledger, unit.author, receipts[0].entry, "once more");
  REQUIRE_FALSE(again);
  CHECK(again.errors().front().code == "unknown_input");
}

TEST_CASE("a record without a ruleset in force is not taken", "[record]") {
  TemporaryLedger unit;
  const auto receipts = ledger::record(unit.ledger, unit.author, {}, "{}", "x");
  REQUIRE_FALSE(receipts);
  CHECK(receipts.errors().front().code == "no_ruleset");
  CHECK(unit.entries().empty());
}

TEST_CASE("a person is found by any identifier, spaces aside", "[record]") {
  TemporaryLedger unit;
  json first = a_record("H1", "E1", "2023-03-10", {});
  first["patient"]["identifiers"].push_back({{"system", "nhs-number"}, {"value", "999 000 0018"}});
  const auto known = unit.record(first);
  json second = a_record("H1", "E2", "2026-03-10", {});
  second["patient"]["identifiers"] = {{{"system", "nhs-number"}, {"value", "9990000018"}},
                                      {{"system", "other-hospital"}, {"value", "X 9"}}};
  CHECK(unit.record(second).person == known.person);
  for (const char* text : {"H1", "nhs-number:9990000018", "999 000 0018", "X9", "P2"}) {
    INFO(text);
    CHECK(value_of(ledger::find_person(unit.ledger, text)).person == known.person);
  }
  CHECK(value_of(ledger::find_person(unit.ledger, "H1")).identifiers ==
        "hospital-number H1; nhs-number 9990000018; other-hospital X9");
}

TEST_CASE("an identity conflict waits for a person", "[record]") {
  struct Row {
    const char* because;
    const char* identifiers;
    const char* birth_date;
    const char* exam;
    const char* codes;
  };
  const auto row = GENERATE(values<Row>({
      {"another birth date", R"([{"system":"hospital-number","value":"H1"}])", "1961-05-05", "E9",
       "patient.birth_date: identity_conflict"},
      {"identifiers of two people",
       R"([{"system":"hospital-number","value":"H1"},{"system":"hospital-number","value":"H2"}])",
       "1961-05-04", "E9", "patient.identifiers[1]: identity_conflict"},
      {"another NHS number",
       R"([{"system":"hospital-number","value":"H1"},{"system":"nhs-number","value":"9990000026"}])",
       "1961-05-04", "E9", "patient.identifiers[1]: identity_conflict"},
      {"an examination of someone else", R"([{"system":"hospital-number","value":"H2"}])", "1961-05-04", "E1",
       "exam.id: identity_conflict"},
      {"an examination that someone not known yet claims", R"([{"system":"hospital-number","value":"H3"}])",
       "1961-05-04", "E1", "exam.id: identity_conflict"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  json first = a_record("H1", "E1", "2026-03-10", {});
  first["patient"]["identifiers"].push_back({{"system", "nhs-number"}, {"value", "9990000018"}});
  unit.record(first);
  unit.record(a_record("H2", "E2", "2026-03-10", {}));
  const auto before = unit.entries().size();
  json record = a_record("H1", row.exam, "2026-03-12", {});
  record["patient"]["identifiers"] = json::parse(row.identifiers);
  record["patient"]["birth_date"] = row.birth_date;
  const auto receipt = unit.record(record);
  CHECK(receipt.received == Received::unmatched);
  CHECK(codes(receipt) == row.codes);
  CHECK(receipt.exam == row.exam);
  CHECK(unit.kinds(before + 1) == "input unmatched");
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).size() == 1);
}

TEST_CASE("new facts about a person amend them, an older record only fills gaps", "[record]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  json later = a_record("H1", "E2", "2026-03-15", {});
  later["patient"]["name"] = {{"family", "Married"}, {"given", "Ada"}};
  later["patient"]["needs"] = {{{"flag", "anticoagulant"}}};
  unit.record(later);
  json older = a_record("H1", "E0", "2020-01-01", {});
  older["patient"]["name"] = {{"family", "Maiden"}, {"given", "Ada"}};
  unit.record(older);
  const auto person = value_of(ledger::find_person(unit.ledger, "H1"));
  CHECK(person.name == "Married, Ada");
  CHECK(person.needs == "anticoagulant");
  CHECK(person.birth_date == "1961-05-04");
}

TEST_CASE("earlier examinations on the ledger feed the record that is advised on", "[record]") {
  TemporaryLedger unit;
  json first = a_record("H1", "E1", "2020-03-10", {a_lesion("L1", tubular_adenoma())});
  first["previous"] = {{{"id", "E0"}, {"date", "2017-01-01"}, {"lesions", json::array()}}};
  unit.record(first);
  unit.record(a_record("H1", "E2", "2026-03-10", {}));
  const json record = advised(unit);
  REQUIRE(record["previous"].size() == 2);
  CHECK(record["previous"][0]["id"] == "E0");
  CHECK(record["previous"][1]["id"] == "E1");
  CHECK(record["previous"][1]["lesions"][0]["id"] == "L1");
}

TEST_CASE("an earlier examination that comes late gives the later one new advice", "[record]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E2", "2026-03-10", {}));
  const auto before = unit.entries().size();
  unit.record(a_record("H1", "E1", "2020-03-10", {}));
  CHECK(unit.kinds(before + 1) ==
        "examination recorded, specimen sent, specimen sent, advice given, advice given, advice superseded");
  CHECK(advised(unit)["exam"]["id"] == "E2");
  CHECK(advised(unit)["previous"][0]["id"] == "E1");
}

TEST_CASE("an examination answers the recall that is open", "[record]") {
  struct Row {
    const char* because;
    const char* date;
    const char* timing;
    std::int64_t days;
  };
  const auto row = GENERATE(values<Row>({
      {"before the due date", "2029-03-09", "early", -1},
      {"on the due date", "2029-03-10", "on time", 0},
      {"on the last day that is not late", "2029-04-21", "on time", 42},
      {"the day after", "2029-04-22", "late", 43},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const auto recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  const auto receipt = unit.record(a_record("H1", "E2", row.date, {}));
  json answered;
  for (const auto& entry : unit.entries()) {
    if (entry.kind == "recall answered") answered = json::parse(entry.body);
  }
  CHECK(answered["recall"] == recall);
  CHECK(answered["exam"] == "E2");
  CHECK(answered["timing"] == row.timing);
  CHECK(answered["days_after_due"] == row.days);
  REQUIRE_FALSE(receipt.notes.empty());
  CHECK(receipt.notes[0].starts_with("answers recall " + recall + " " + row.timing));
  CHECK(value_of(ledger::sweep(unit.ledger, {2030, 1, 1})).open == 0);
}

TEST_CASE("an examination from before the one that is followed answers nothing", "[record]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  unit.record(a_record("H1", "E0", "2020-03-10", {}));
  CHECK(value_of(ledger::sweep(unit.ledger, {2026, 4, 1})).open == 1);
}

TEST_CASE("histology that came as a result outlives an amended record that leaves it open", "[record]") {
  TemporaryLedger unit;
  json record = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)});
  unit.record(record);
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  record["exam"]["endoscopist"] = "Dr Someone-Else";
  const auto receipt = unit.record(record);
  CHECK(receipt.received == Received::amended);
  CHECK(receipt.answers[0].state == engine::AdviceState::settled);
  CHECK(value_of(ledger::awaiting(unit.ledger, {2026, 3, 20}, {})).empty());
}

TEST_CASE("an examination dated after today is recorded with a note", "[record]") {
  TemporaryLedger unit;
  const auto receipt = unit.record(a_record("H1", "E1", "2026-03-21", {}));
  CHECK(receipt.received == Received::recorded);
  CHECK(receipt.notes == std::vector<std::string>{"the examination is dated after today"});
}

TEST_CASE("a corrected ledger lets a waiting input through, and takes it off the list", "[record]") {
  TemporaryLedger unit;
  json claimed = a_record("H1", "E1", "2026-03-10", {});
  unit.record(claimed);
  json conflicting = a_record("H1", "E2", "2026-03-12", {});
  conflicting["patient"]["identifiers"].push_back({{"system", "nhs-number"}, {"value", "9990000018"}});
  json other = a_record("H2", "E3", "2026-03-11", {});
  const json unknown_result = a_result("E2", "L1", tubular_adenoma());
  CHECK(unit.result(unknown_result).received == Received::unmatched);
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).size() == 1);
  unit.record(a_record("H2", "E2", "2026-03-12", {a_lesion("L1", nullptr)}));
  CHECK(unit.result(unknown_result).received == Received::entered);
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).empty());
}

TEST_CASE("a waiting input whose words are known by now leaves the list when it comes again", "[record]") {
  TemporaryLedger unit;
  const json result = a_result("E1", "L1", tubular_adenoma());
  unit.result(result);  // before its examination
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).size() == 1);
  CHECK(unit.result(result).received == ledger::Received::already_entered);
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("when a record of a file cannot be written, those before it are there", "[record]") {
  TemporaryLedger unit;
  std::string lines;
  for (int i = 0; i < 9; ++i) {
    const std::string number = std::to_string(i);
    lines +=
        a_record("H" + number, "E" + number, "2026-03-10", {a_lesion("L1", tubular_adenoma())}).dump() + "\n";
  }
  run_sql(unit.path,
          "CREATE TRIGGER fault BEFORE INSERT ON examinations WHEN new.exam = 'E6'"
          " BEGIN SELECT raise(ABORT, 'a fault of the disk'); END");
  const auto failed = ledger::record(unit.ledger, unit.author, unit.protocol, lines, "test.jsonl");
  REQUIRE_FALSE(failed);
  CHECK(failed.errors().front().message == "the ledger gave a fault: a fault of the disk");
  CHECK(ask_sql(unit.path, "SELECT group_concat(exam) FROM (SELECT exam FROM examinations ORDER BY exam)") ==
        "E0,E1,E2,E3,E4,E5");
  run_sql(unit.path, "DROP TRIGGER fault");
  const auto receipts =
      value_of(ledger::record(unit.ledger, unit.author, unit.protocol, lines, "test.jsonl"));
  REQUIRE(receipts.size() == 9);
  CHECK(receipts[5].received == Received::already_recorded);
  CHECK(receipts[6].received == Received::recorded);
  CHECK(faults_of(unit.path).empty());
}
