// The promise behind "nothing is lost and nothing is entered twice": `record` is killed at random moments,
// again and again, and goes on where it was.

#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "support/kills.h"
#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::TemporaryUnit;

namespace {

constexpr int files = 1000;
// Once a record: a person, an examination, two pots and an advice; and one ruleset.
constexpr std::uint64_t all_entries = 1 + 5 * files;

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

// The number of entries, all of them sound; 0 while the first run has not come as far as to make a ledger.
std::uint64_t verified_size(const TemporaryUnit& unit) {
  const Finished finished = unit.run({"audit", "verify", "--json"});
  if (finished.code == 4) return 0;
  INFO(finished.out);
  CHECK(finished.code == 0);
  return std::stoul(json::parse(finished.out)["checkpoint"].get<std::string>());
}

}  // namespace

TEST_CASE("killed again and again, a thousand records are each entered once", "[cli][slow]") {
  const TemporaryUnit unit;
  const int kills = support::kills(300);
  std::vector<std::string> words = {"record",    "--ledger", unit.ledger, "--rulesets", unit.rulesets,
                                    "--ruleset", "test-a",   "--today",   unit.today};
  for (std::string& name : write_files(unit)) words.push_back(std::move(name));

  std::mt19937 random(20'200);
  // From before the first entry to some way into the files; each run goes over what is there and adds to it.
  int longest = 60;  // milliseconds; longer on a machine on which that is over before the work begins
  std::uint64_t size = 0;
  int within_the_work = 0;
  for (int i = 0; i < kills; ++i) {
    support::RunningProgram program(words);
    std::this_thread::sleep_for(
        std::chrono::milliseconds(std::uniform_int_distribution<int>(1, longest)(random)));
    program.signal(SIGKILL);
    const bool was_killed = program.finish().code == 128 + SIGKILL;
    const std::uint64_t now = verified_size(unit);
    CHECK(now >= size);  // nothing that was there is lost
    size = now;
    if (size == 0) longest = std::min(longest * 5 / 4, 5'000);
    within_the_work += was_killed && size > 0 && size < all_entries ? 1 : 0;
  }
  CHECK(within_the_work > kills / 10);  // else the moments said nothing

  const Finished last = support::run_program(words);
  CHECK(last.code == 0);
  CHECK(verified_size(unit) == all_entries);
  const json unplanned = json::parse(unit.run_today({"unplanned", "--format", "json"}).out);
  CHECK(unplanned["count"] == files);
}
