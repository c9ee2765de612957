// The promise behind "one letter once": `letter make` is killed at random moments, again and again, and goes
// on.

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <thread>

#include "ledger/letters.h"
#include "ledger/signing.h"
#include "support/letters.h"
#include "support/records.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::Finished;
using support::TemporaryUnit;

namespace {

constexpr int people = 300;
constexpr int kills = 100;

void sign_all(const TemporaryUnit& unit) {
  std::string lines;
  for (int i = 0; i < people; ++i) {
    const std::string number = std::to_string(1'000 + i);
    const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
    lines += support::a_record("H" + number, "E" + number, "2026-03-10", {lesion}).dump() + "\n";
  }
  REQUIRE(unit.receive({"record", unit.file("all.jsonl", lines)}).code == 0);
  auto ledger = support::value_of(ledger::Ledger::open(unit.ledger, ledger::Ledger::Access::write));
  const support::FixedClock clock{unit.today};
  for (int i = 0; i < people; ++i)
    support::value_of(ledger::sign(ledger, {"test", clock}, "E" + std::to_string(1'000 + i), "Dr Rao", 0));
}

/// How often each letter went out, by the ledger.
std::map<std::string, int> issued_in(const TemporaryUnit& unit) {
  std::map<std::string, int> counts;
  const auto ledger = support::value_of(ledger::Ledger::open(unit.ledger, ledger::Ledger::Access::read));
  support::value_of(ledger.each_entry(1, [&](const ledger::Entry& entry) {
    if (entry.kind != "letter issued") return;
    const json body = json::parse(entry.body);
    ++counts[body["exam"].get<std::string>() + " to " + body["to"].get<std::string>()];
  }));
  return counts;
}

}  // namespace

TEST_CASE("killed a hundred times, six hundred letters each go out once, and none is half written",
          "[cli][letter][slow]") {
  const TemporaryUnit unit;
  sign_all(unit);
  const std::string folder = unit.folder.file("letters");
  const std::vector<std::string> words = {
      "letter",   "make",      "--to",    folder,    "--unit", unit.file("unit.json", support::unit_file),
      "--ledger", unit.ledger, "--today", unit.today};
  std::mt19937 random(20'260);
  int longest = 60;  // milliseconds; longer where that is over before the first letter
  std::size_t before = 0;
  int within_the_work = 0;
  for (int i = 0; i < kills; ++i) {
    support::RunningProgram program(words);
    std::this_thread::sleep_for(
        std::chrono::milliseconds(std::uniform_int_distribution<int>(1, longest)(random)));
    program.signal(SIGKILL);
    const bool was_killed = program.finish().code == 128 + SIGKILL;
    const std::size_t now = issued_in(unit).size();
    CHECK(now >= before);
    within_the_work += was_killed && now > before && now < 2 * people ? 1 : 0;
    if (now == before) longest = std::min(longest * 5 / 4, 5'000);
    before = now;
  }
  CHECK(within_the_work > kills / 20);  // else the moments said nothing

  const Finished last = support::run_program(words);
  INFO(last.out << last.err);
  CHECK(last.code == 0);
  const auto issued = issued_in(unit);
  CHECK(issued.size() == 2 * people);
  for (const auto& [letter, count] : issued) {
    INFO(letter);
    CHECK(count == 1);
  }
  std::set<std::string> names;
  for (const auto& file : fs::directory_iterator(folder)) names.insert(file.path().filename().string());
  CHECK(names.size() == 2 * people);  // one file each, and nothing beside them
  for (const std::string& name : names) {
    INFO(name);
    const std::string entry = name.substr(1, name.find('-') - 1);
    const auto ledger = support::value_of(ledger::Ledger::open(unit.ledger, ledger::Ledger::Access::read));
    CHECK(support::value_of(ledger::letter_text(ledger, std::stoull(entry))) ==
          support::read_text(folder + "/" + name));
  }
  CHECK(unit.run({"audit", "verify"}).code == 0);
}
