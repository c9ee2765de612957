// The program is killed at random moments while it signs, backs up, exports and imports: the ledger stays
// sound, nothing that was answered is lost, and no file has its name before it is whole.

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
#include "support/sqlite.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::Finished;
using support::run_program;
using support::TemporaryUnit;

namespace {

/// A unit whose examinations all wait to be signed.
struct Unit : TemporaryUnit {
  explicit Unit(int examinations) {
    std::string lines;
    for (int i = 0; i < examinations; ++i) {
      const auto lesion = support::a_lesion("L1", support::tubular_adenoma());
      lines += support::a_record("H" + name(i), name(i), "2026-03-10", {lesion}).dump() + "\n";
    }
    REQUIRE(receive({"record", "-"}, lines).code == 0);
  }
  static std::string name(int i) { return "E" + std::to_string(1000 + i); }
  std::uint64_t count(const std::string& what) const {
    return std::stoul(support::ask_sql(ledger, "SELECT count(*) FROM entries WHERE " + what));
  }
  void check_sound() const {
    const Finished finished = run({"audit", "verify", "--json"});
    INFO(finished.out << finished.err);
    CHECK(finished.code == 0);
  }
};

/// Kills at moments spread over as long as the work takes, of which it learns.
class Killer {
 public:
  explicit Killer(unsigned seed) : random_(seed) {}

  Finished run(std::vector<std::string> words, const TemporaryUnit& unit) {
    words.insert(words.end(), {"--ledger", unit.ledger});
    const auto begin = std::chrono::steady_clock::now();
    support::RunningProgram program(words);
    std::this_thread::sleep_for(
        std::chrono::microseconds(std::uniform_int_distribution<int>(0, longest_)(random_)));
    program.signal(SIGKILL);
    const Finished finished = program.finish();
    if (finished.code == 128 + SIGKILL) {
      ++killed;
      longest_ = std::min(longest_ * 6 / 5, 5'000'000);
    } else {
      const auto took = std::chrono::steady_clock::now() - begin;
      longest_ = std::max(
          1000, static_cast<int>(std::chrono::duration_cast<std::chrono::microseconds>(took).count()));
    }
    return finished;
  }

  int killed = 0;

 private:
  std::mt19937 random_;
  int longest_ = 20'000;  // microseconds
};

}  // namespace

TEST_CASE("killed again and again, a signature is there with its recall or not at all", "[cli][slow]") {
  const int kills = support::kills(225);
  const int examinations = 2 * kills;  // about every other run is over before it is killed
  const Unit unit(examinations);
  Killer killer(11);
  std::uint64_t signatures = 0;
  int exam = 0;
  while (killer.killed < kills && exam < examinations) {
    const Finished finished = killer.run({"advice", "sign", Unit::name(exam), "--by", "Dr Rao"}, unit);
    const std::uint64_t now = unit.count("kind = 'advice signed'");
    CHECK(now == unit.count("kind = 'recall opened'"));
    CHECK((now == signatures || now == signatures + 1));
    if (finished.code == 0) CHECK(now == signatures + 1);
    exam += now > signatures ? 1 : 0;
    signatures = now;
  }
  CHECK(killer.killed > kills / 2);
  CHECK(signatures > 0);
  unit.check_sound();
  for (; exam < examinations; ++exam)
    CHECK(unit.run({"advice", "sign", Unit::name(exam), "--by", "Dr Rao"}).code == 0);
  CHECK(unit.count("kind = 'advice signed'") == static_cast<std::uint64_t>(examinations));
  CHECK(unit.count("kind = 'recall opened'") == static_cast<std::uint64_t>(examinations));
  unit.check_sound();
}

TEST_CASE("killed again and again, a backup has its name only when it is whole", "[cli][slow]") {
  const Unit unit(60);
  Killer killer(12);
  const int kills = support::kills(150);
  const std::string file = unit.folder.file("backup");
  while (killer.killed < kills) {
    const Finished finished = killer.run({"backup", file}, unit);
    if (finished.code == 0) CHECK(fs::exists(file));
    if (!fs::exists(file)) continue;
    const Finished verified = run_program({"restore", file, "--verify"});
    INFO(verified.out << verified.err);
    CHECK(verified.code == 0);
    fs::remove(file);
  }
  CHECK(unit.run({"backup", file}).code == 0);  // whatever was left of those before
  CHECK_FALSE(fs::exists(file + ".part"));
  unit.check_sound();
}

TEST_CASE("killed again and again, an export and a ledger made of one are whole or not there",
          "[cli][slow]") {
  const Unit unit(60);
  Killer exporting(13), importing(14);
  const int kills = support::kills(75);
  const std::string file = unit.folder.file("unit.export"), kept = unit.folder.file("kept.export");
  REQUIRE(unit.run({"export", kept}).code == 0);
  const std::string whole = support::read_text(kept);
  while (exporting.killed < kills) {
    const Finished finished = exporting.run({"export", file}, unit);
    if (finished.code == 0) CHECK(fs::exists(file));
    if (fs::exists(file)) CHECK(support::read_text(file) == whole);
    fs::remove(file);
  }
  TemporaryUnit copy;
  while (importing.killed < kills) {
    const Finished finished = importing.run({"import", kept}, copy);
    if (finished.code == 0) CHECK(fs::exists(copy.ledger));
    if (!fs::exists(copy.ledger)) continue;
    CHECK(copy.run({"audit", "verify", "--json"}).code == 0);
    CHECK(copy.run({"export"}).out == whole);
    fs::remove(copy.ledger);
  }
  CHECK(copy.run({"import", kept}).code == 0);
  CHECK(copy.run({"export"}).out == whole);
  CHECK_FALSE(fs::exists(copy.ledger + ".part"));
}
