// The daemon is killed at random moments while its inbox is full: every file ends in `done`, and is entered
// once.

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "support/kills.h"
#include "support/records.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::TemporaryUnit;

namespace {

constexpr int files = 300;

std::size_t files_in(const std::string& folder) {
  if (!fs::exists(folder)) return 0;
  std::size_t count = 0;
  for (const auto& entry : fs::directory_iterator(folder)) count += entry.is_regular_file() ? 1U : 0U;
  return count;
}

}  // namespace

TEST_CASE("killed again and again, the daemon loses no file and enters none twice", "[cli][slow]") {
  const TemporaryUnit unit;
  const int kills = support::kills(175);
  const std::string inbox = unit.folder.file("inbox");
  for (int i = 0; i < files; ++i) {
    const std::string number = std::to_string(10'000 + i);
    const auto record = support::a_record("H" + number, "E" + number, "2026-03-10", {});
    support::write_file(inbox + "/" + number + ".json", record.dump());
  }
  std::mt19937 random(7);
  int longest = 40;  // milliseconds; from the making of the ledger on, on machines of any speed
  int within_the_work = 0;
  for (int i = 0; i < kills; ++i) {
    support::RunningProgram daemon({"serve", "--inbox", inbox, "--ledger", unit.ledger, "--rulesets",
                                    unit.rulesets, "--ruleset", "test-a", "--today", unit.today});
    std::this_thread::sleep_for(
        std::chrono::milliseconds(std::uniform_int_distribution<int>(1, longest)(random)));
    daemon.signal(SIGKILL);
    daemon.finish();
    const std::size_t waiting = files_in(inbox), claimed = files_in(inbox + "/claimed");
    const std::size_t done = files_in(inbox + "/done");
    CHECK(waiting + claimed + done == files);
    if (done == 0) longest = std::min(longest * 5 / 4, 5'000);
    within_the_work += done > 0 && waiting > 0 ? 1 : 0;
  }
  CHECK(within_the_work > 0);

  CHECK(unit.receive({"serve", "--once", "--inbox", inbox}).code == 0);
  CHECK(files_in(inbox + "/done") == files);
  CHECK(files_in(inbox + "/failed") == 0);
  const json report = json::parse(unit.run({"audit", "verify", "--json"}).out);
  CHECK(report["faults"].empty());
  // Once a record: a person, an examination, two pots and an advice; and one ruleset.
  CHECK(std::stoul(report["checkpoint"].get<std::string>()) == 1 + 5 * files);
}
