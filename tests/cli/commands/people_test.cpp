// People, accounts, protocol, withdrawn reports, letters and backups, as they are typed.

#include <unistd.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "ledger_access.h"
#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

void record(const TemporaryUnit& unit, const std::string& number, const std::string& exam,
            const json& histology) {
  const auto given = a_record(number, exam, "2023-03-10", {a_lesion("L1", histology)});
  REQUIRE(unit.receive({"record", unit.file(exam + ".json", given.dump())}).code == 0);
}

Finished succeed(Finished finished) {
  INFO(finished.err);
  CHECK(finished.code == 0);
  return finished;
}

json list(const TemporaryUnit& unit, const std::string& name) {
  return json::parse(unit.run_today({name, "--format", "json"}).out);
}

/// A command of the ledger that names the tests' rulesets.
Finished advise(const TemporaryUnit& unit, std::vector<std::string> words) {
  return unit.receive(std::move(words));
}

}  // namespace

TEST_CASE("a death noted in error is taken back", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  succeed(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}));
  succeed(unit.run_today({"people", "death", "H1", "--on", "2026-03-15"}));
  CHECK(list(unit, "to-close")["count"] == 1);
  succeed(unit.run_today({"people", "alive", "H1", "--reason", "rang up"}));
  CHECK(list(unit, "to-close")["count"] == 0);
  CHECK(unit.run_today({"people", "alive", "H1", "--reason", "rang up"}).code == 2);
  succeed(unit.run_today({"people", "moved", "H1", "--on", "2026-03-15"}));
  succeed(unit.run_today({"people", "back", "H1", "--reason", "new address"}));
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("people who look alike are proposed, merged, and unmerged", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  record(unit, "X9", "E2", support::tubular_adenoma());
  const auto pairs = [&] {
    const std::string out = succeed(unit.run_today({"people", "duplicates", "--json"})).out;
    return std::count(out.begin(), out.end(), '\n');
  };
  CHECK(pairs() == 1);
  const json pair = json::parse(unit.run_today({"people", "duplicates", "--json"}).out);
  const std::vector<std::string> decision = {"--clinician", "Dr Invented", "--reason", "one passport"};
  const auto with = [&](std::vector<std::string> words) {
    words.insert(words.end(), decision.begin(), decision.end());
    return words;
  };
  succeed(advise(unit, with({"people", "merge", "H1", "X9"})));
  CHECK(pairs() == 0);
  CHECK(unit.run({"patient", "X9"}).out.find("E1") != std::string::npos);
  succeed(advise(unit, with({"people", "unmerge", pair["second"]})));
  CHECK(unit.run({"patient", "X9"}).out.find("E1") == std::string::npos);
  succeed(unit.run_today(with({"people", "apart", "H1", "X9"})));
  CHECK(pairs() == 0);
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("the first account that is named switches the rights on", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  CHECK(unit.run({"audit", "verify"}).out.find("no account is named") != std::string::npos);
  const std::string me = cli::account_of_caller();
  CHECK(
      unit.run_today({"accounts", "name", me, "--name", "Dr Invented", "--role", "auditor", "--reason", "x"})
          .code == 2);
  succeed(unit.run_today(
      {"accounts", "name", me, "--name", "Dr Invented", "--role", "consultant", "--reason", "head of unit"}));
  CHECK(unit.run({"audit", "verify"}).out.find("no account is named") == std::string::npos);
  CHECK(unit.run_today({"advice", "sign", "E1", "--by", "Dr Other"}).code == 2);
  CHECK(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented", "--actor", "someone"}).code == 2);
  succeed(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}));
  succeed(unit.run_today({"accounts", "name", "office", "--name", "Jo Example", "--role", "administrator",
                          "--reason", "recall office"}));
  CHECK(succeed(unit.run({"accounts", "list"})).out.find("administrator") != std::string::npos);
  succeed(unit.run_today({"accounts", "withdraw", "office", "--reason", "left"}));
  CHECK(unit.run_today({"accounts", "withdraw", me, "--reason", "left"}).code == 2);
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("the protocol in force answers, from the bytes that the ledger keeps", "[cli]") {
  const TemporaryUnit unit;
  succeed(advise(unit, {"protocol", "adopt", "--clinician", "Dr Invented", "--reason", "as agreed", "--from",
                        "2026-01-01", "--setting", "nation=Scotland", "--late-after", "28"}));
  const json shown = json::parse(succeed(unit.run_today({"protocol", "show", "--json"})).out);
  CHECK(shown["rulesets"][0]["id"] == "test-a");
  CHECK(shown["late_after_days"] == 28);
  CHECK(shown["settings"]["nation"] == "Scotland");
  CHECK(succeed(unit.run_today({"protocol", "show"})).out.find("test-a") != std::string::npos);
  // No ruleset is named, and the folder that is has none: the ledger's own answers.
  const std::string empty = unit.folder.file("empty");
  std::filesystem::create_directories(empty);
  const auto given = a_record("H1", "E1", "2026-03-10", {a_lesion("L1", support::tubular_adenoma())});
  succeed(unit.run_today({"record", unit.file("a.json", given.dump()), "--rulesets", empty}));
  CHECK(list(unit, "unplanned")["count"] == 1);
  CHECK(unit.run_today(
                {"protocol", "adopt", "--clinician", "Dr Invented", "--reason", "x", "--rulesets", empty})
            .code == 2);
}

TEST_CASE("a report that was taken back is awaited again, and the letter is to be sent again", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  const std::string letter = unit.file("letter.txt", "The next examination is due in March.");
  const std::vector<std::string> note = {"letter",   "note",   "E1",   letter,
                                         "--letter", "result", "--to", "patient"};
  CHECK(unit.run_today(note).code == 2);
  succeed(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}));
  succeed(unit.run_today(note));
  succeed(advise(unit, {"withdraw", "E1", "--reason", "mixed up slides"}));
  CHECK(list(unit, "awaiting")["count"] == 1);
  CHECK(advise(unit, {"withdraw", "E1", "--reason", "mixed up slides"}).code == 2);
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("a backup is verified and its checkpoint printed", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  const std::string copy = unit.folder.file("copy.ledger");
  std::string line = succeed(unit.run_today({"backup", copy})).out;
  line.pop_back();
  CHECK(unit.run({"audit", "verify", "--checkpoint", line}).code == 0);
  CHECK(support::run_program({"audit", "verify", "--checkpoint", line, "--ledger", copy}).code == 0);
  const Finished again = unit.run_today({"backup", copy});
  CHECK(again.code == 3);
  CHECK(again.err.find("there is a file already") != std::string::npos);
}

TEST_CASE("vetting and the last invitation are told with their results", "[cli]") {
  const TemporaryUnit unit;
  record(unit, "H1", "E1", support::tubular_adenoma());
  succeed(unit.run_today({"advice", "sign", "E1", "--by", "Dr Invented"}));
  const std::string recall = list(unit, "due")["rows"].at(0)["recall"];
  CHECK(succeed(unit.run_today({"recall", "vet", recall, "--by", "Dr Invented", "--result", "clinic",
                                "--reason", "frail"}))
            .out == recall + ": clinic\n");
  CHECK(unit.run_today({"recall", "vet", recall, "--by", "Dr Invented", "--result", "perhaps"}).code == 2);
  succeed(unit.run_today({"recall", "vet", recall, "--by", "Dr Invented"}));
  for (int i = 0; i < 4; ++i) succeed(unit.run_today({"recall", "invite", recall}));
  CHECK(unit.run_today({"recall", "invite", recall}).code == 2);
  CHECK(succeed(unit.run_today({"recall", "invite", recall, "--owner", "Sister Example"})).out ==
        recall + ": no reply\n");
}
