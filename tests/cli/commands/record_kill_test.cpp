// The promise behind "nothing is lost and nothing is entered twice": `record` is killed at random moments,
// again and again, and goes on where it was.

#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::TemporaryUnit;

namespace {

constexpr int files = 1000;
constexpr int kills = 100;

std::vector<std::string> write_files(const TemporaryUnit& unit) {
  std::vector<std::string> names;
  for (int i = 0; i < files; ++i) {
    const std::string number = std::to_string(10'000 + i);
    const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
    const json record = support::a_record("H" + number, "E" + number, "2026-03-10", {lesion});
    names.push_back(unit.file("record-" + number + ".json", record.dump()));
  }
  return names;
}

}  // namespace

TEST_CASE("killed a hundred times, a thousand records are each entered once", "[cli][slow]") {
  const TemporaryUnit unit;
  std::vector<std::string> words = {"record",    "--ledger", unit.ledger, "--rulesets", unit.rulesets,
                                    "--ruleset", "test-a",   "--today",   unit.today};
  for (std::string& name : write_files(unit)) words.push_back(std::move(name));

  std::mt19937 random(20'200);
  // From before the first entry to some way into the files; each run goes over what is there and adds to it.
  std::uniform_int_distribution<int> milliseconds(2, 400);
  int interrupted = 0;
  for (int i = 0; i < kills; ++i) {
    support::RunningProgram program(words);
    std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds(random)));
    program.signal(SIGKILL);
    interrupted += program.finish().code == 128 + SIGKILL ? 1 : 0;
  }
  CHECK(interrupted > kills / 2);  // else the moments were not within the work

  const Finished last = support::run_program(words);
  CHECK(last.code == 0);
  const Finished verified = unit.run({"audit", "verify"});
  INFO(verified.out);
  CHECK(verified.code == 0);
  const json unplanned = json::parse(unit.run_today({"unplanned", "--format", "json"}).out);
  CHECK(unplanned["count"] == files);

  // What stands in the ledger once a record: a person, an examination, two pots and an advice; and one
  // ruleset.
  const json report = json::parse(unit.run({"audit", "verify", "--json"}).out);
  CHECK(std::stoul(report["checkpoint"].get<std::string>()) == 1 + 5 * files);
}
