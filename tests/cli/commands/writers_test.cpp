// Several programs write into one ledger at once: two that record, and the daemon.

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::Finished;
using support::TemporaryUnit;

namespace {

constexpr int each = 500;
constexpr int in_the_inbox = 200;

std::string record_of(int number) {
  const std::string name = std::to_string(10'000 + number);
  return support::a_record("H" + name, "E" + name, "2026-03-10", {}).dump();
}

std::string lines_from(int first) {
  std::string lines;
  for (int i = first; i < first + each; ++i) lines += record_of(i) + "\n";
  return lines;
}

}  // namespace

TEST_CASE("two that record and the daemon write at once: none is lost, none doubled", "[cli][slow]") {
  const TemporaryUnit unit;
  const std::string inbox = unit.folder.file("inbox");
  for (int i = 0; i < in_the_inbox; ++i)
    support::write_file(inbox + "/" + std::to_string(10'000 + i) + ".json", record_of(i));
  const auto words = [&](std::vector<std::string> first) {
    first.insert(first.end(), {"--ledger", unit.ledger, "--rulesets", unit.rulesets, "--ruleset", "test-a",
                               "--today", unit.today});
    return first;
  };
  // The second half of the first writer's records are the first half of the second one's: both may come
  // first.
  const std::string one = unit.file("one.jsonl", lines_from(in_the_inbox));
  const std::string two = unit.file("two.jsonl", lines_from(in_the_inbox + each / 2));
  // Begun at once, on a ledger that is not there yet.
  support::RunningProgram daemon(words({"serve", "--inbox", inbox, "--every", "10"}));
  support::RunningProgram first(words({"record", one}));
  support::RunningProgram second(words({"record", two}));
  const Finished first_end = first.finish(), second_end = second.finish();
  INFO(first_end.err << second_end.err);
  CHECK(first_end.code == 0);
  CHECK(second_end.code == 0);
  CHECK(unit.receive({"serve", "--once", "--inbox", inbox}).code == 0);
  daemon.signal(SIGTERM);
  CHECK(daemon.finish().code == 0);

  constexpr int all = in_the_inbox + each + each / 2;
  const Finished verified = unit.run({"audit", "verify", "--json"});
  CHECK(verified.code == 0);
  CHECK(json::parse(verified.out)["faults"].empty());
  const auto count = [&](const std::string& what) {
    return support::ask_sql(unit.ledger,
                            "SELECT count(*) || ' ' || count(DISTINCT subject) FROM entries WHERE " + what);
  };
  CHECK(count("kind = 'examination recorded'") == std::to_string(all) + " " + std::to_string(all));
  CHECK(count("kind = 'advice given'") == std::to_string(all) + " " + std::to_string(all));
  CHECK(count("kind = 'person registered'") == std::to_string(all) + " " + std::to_string(all));
  CHECK(count("kind = 'examination amended'") == "0 0");
  const json unplanned = json::parse(unit.run_today({"unplanned", "--format", "json"}).out);
  std::set<std::string> exams;
  for (const json& row : unplanned["rows"]) exams.insert(row["exam"]);
  CHECK(exams.size() == all);
}
