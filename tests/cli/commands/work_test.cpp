// A recall's errand through the commands: signed, vetted, invited, booked, missed, closed; and the lists in
// between.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/layout.h"
#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

// An adenoma three years and ten days before `today`: due ten days ago.
void record_due(const TemporaryUnit& unit) {
  const auto record = a_record("H1", "E1", "2023-03-10", {a_lesion("L1", support::tubular_adenoma())});
  REQUIRE(unit.receive({"record", unit.file("a.json", record.dump())}).code == 0);
}

json list(const TemporaryUnit& unit, const std::string& name, const std::string& today) {
  return json::parse(unit.run({name, "--format", "json", "--today", today}).out);
}

std::string sign(const TemporaryUnit& unit) {
  const Finished finished = unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"});
  REQUIRE(finished.code == 0);
  return list(unit, "due", unit.today)["rows"].at(0)["recall"];
}

}  // namespace

TEST_CASE("an answer stands without an outcome until it is signed, then its recall is due", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  CHECK(list(unit, "unplanned", unit.today)["count"] == 1);
  CHECK(list(unit, "due", unit.today)["count"] == 0);
  const std::string recall = sign(unit);
  CHECK(list(unit, "unplanned", unit.today)["count"] == 0);
  const json row = list(unit, "due", unit.today)["rows"][0];
  CHECK(row["due"] == "2026-03-10");
  CHECK(row["signed_by"] == "Dr Invented");
  CHECK(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}).code == 2);  // once is enough
}

TEST_CASE("from due to overdue no one is lost for a day", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  sign(unit);
  struct Row {
    const char* today;
    int due, overdue;
  };
  for (const Row& row : {Row{"2026-01-26", 0, 0}, Row{"2026-01-27", 1, 0}, Row{"2026-03-10", 1, 0},
                         Row{"2026-04-21", 1, 0}, Row{"2026-04-22", 0, 1}, Row{"2027-04-22", 0, 1}}) {
    INFO(row.today);
    CHECK(list(unit, "due", row.today)["count"] == row.due);
    CHECK(list(unit, "overdue", row.today)["count"] == row.overdue);
  }
}

TEST_CASE("a recall goes its way from move to move", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  const std::string recall = sign(unit);
  struct Row {
    const char* because;
    std::vector<std::string> words;
    const char* state;
  };
  const std::vector<Row> rows = {
      {"a consultant vets it", {"vet", recall, "--by", "Dr Invented"}, "vetted"},
      {"the office invites", {"invite", recall, "--means", "letter"}, "invited"},
      {"and books", {"book", recall, "--on", "2026-04-02"}, "booked"},
      {"the patient does not come", {"miss", recall}, "did not attend"},
      {"a consultant closes it", {"close", recall, "--by", "Dr Invented", "--reason", "declined"}, "closed"},
      {"it is opened again", {"reopen", recall, "--reason", "changed her mind"}, "opened"},
      {"she is not ready for a time",
       {"defer", recall, "--reason", "a new hip", "--from", "2026-03-20", "--to", "2026-05-01"},
       "not ready"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    std::vector<std::string> words = row.words;
    words.insert(words.begin(), "recall");
    const Finished finished = unit.run_today(words);
    INFO(finished.err);
    CHECK(finished.code == 0);
    CHECK(finished.out == recall + ": " + row.state + "\n");
  }
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("a move that is not allowed changes nothing and names those that are", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  const std::string recall = sign(unit);
  const Finished finished = unit.run_today({"recall", "miss", recall});
  CHECK(finished.code == 2);
  CHECK(finished.err.find("allowed are") != std::string::npos);
  CHECK(unit.run_today({"recall", "vet", "R99", "--by", "Dr Invented"}).code == 2);
}

TEST_CASE("a clinician decides otherwise, with a reason", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  const Finished finished =
      unit.run_today({"advice", "override", "E1", "--by", "Dr Invented", "--action",
                      "surveillance colonoscopy", "--from", "2026-03-25", "--reason", "poor views"});
  CHECK(finished.code == 0);
  CHECK(list(unit, "due", unit.today)["rows"][0]["due"] == "2026-03-25");
  CHECK(unit.run_today({"advice", "override", "E1", "--by", "Dr Invented", "--action", "wait and see",
                        "--reason", "x"})
            .code == 2);
}

TEST_CASE("a death takes a person to the list of recalls to be closed", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  const std::string recall = sign(unit);
  CHECK(unit.run_today({"people", "death", "H1", "--on", "2026-03-15"}).code == 0);
  CHECK(list(unit, "to-close", unit.today)["rows"].at(0)["recall"] == recall);
}

TEST_CASE("every list fits the page, says what to do, and ends with the caution", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  sign(unit);
  for (const char* name : {"due", "overdue", "awaiting", "unplanned", "to-close", "inputs"}) {
    const Finished finished = unit.run_today({name});
    INFO(name << "\n" << finished.out);
    CHECK(finished.code == 0);
    CHECK(finished.out.find("\nNext: ") != std::string::npos);
    CHECK(finished.out.ends_with("local policy decides.\n"));
    std::istringstream lines(finished.out);
    for (std::string line; std::getline(lines, line);) CHECK(cli::width_of(line) <= cli::page_width);
  }
}

TEST_CASE("a list as CSV has a heading and a line for each person", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  sign(unit);
  const Finished finished = unit.run_today({"due", "--format", "csv"});
  CHECK(finished.out.starts_with("recall,due,due_to,late_on,days_late,action,state,person,"));
  CHECK(std::count(finished.out.begin(), finished.out.end(), '\n') == 2);
}

TEST_CASE("one patient's history is told from the beginning", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  sign(unit);
  const Finished finished = unit.run({"patient", "H1"});
  CHECK(finished.code == 0);
  CHECK(finished.out.find("born 1961-05-04") != std::string::npos);
  const json history = json::parse(unit.run({"patient", "hospital-number:H1", "--json"}).out);
  std::vector<std::string> kinds;
  for (const json& entry : history["entries"]) kinds.push_back(entry["kind"]);
  CHECK(kinds == std::vector<std::string>{"person registered", "examination recorded", "specimen sent",
                                          "specimen sent", "advice given", "advice signed", "recall opened"});
  CHECK(unit.run({"patient", "H99"}).code == 2);
}

TEST_CASE("a checkpoint kept elsewhere shows whether the ledger goes on from it", "[cli]") {
  const TemporaryUnit unit;
  record_due(unit);
  std::string line = unit.run_today({"audit", "checkpoint"}).out;
  line.pop_back();
  sign(unit);
  CHECK(unit.run({"audit", "verify", "--checkpoint", line}).code == 0);
  std::string other = line;
  other.back() = other.back() == '0' ? '1' : '0';
  CHECK(unit.run({"audit", "verify", "--checkpoint", other}).code == 1);
  CHECK(unit.run({"audit", "verify", "--checkpoint", "nonsense"}).code == 2);
  CHECK(unit.run({"audit", "replay"}).code == 0);
}
