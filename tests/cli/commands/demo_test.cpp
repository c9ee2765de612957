#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "support/places.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::run_program;
using support::TemporaryFolder;

namespace {

Finished demo(const std::string& ledger, const std::string& patients) {
  return run_program({"demo", "--ledger", ledger, "--today", "2026-03-20", "--patients", patients,
                      "--ruleset", "uk-2020", "--rulesets", support::source("rulesets")});
}

json rows(const std::string& ledger, const std::string& name) {
  return json::parse(
      run_program({name, "--ledger", ledger, "--today", "2026-03-20", "--format", "json"}).out)["rows"];
}

}  // namespace

TEST_CASE("the invented unit is walked through, and its ledger is sound", "[cli]") {
  const TemporaryFolder folder;
  const std::string ledger = folder.file("unit.ledger");
  const Finished finished = demo(ledger, "300");
  INFO(finished.err);
  REQUIRE(finished.code == 0);
  CHECK(finished.out.find("error: ") == std::string::npos);
  for (const char* step : {"1. ", "2. ", "3. ", "4. ", "5. ", "6. ", "7. "}) {
    CHECK(finished.out.find("\n" + std::string(step)) != std::string::npos);
  }
  CHECK(run_program({"audit", "verify", "--ledger", ledger}).code == 0);
  CHECK(run_program({"audit", "replay", "--ledger", ledger}).code == 0);

  for (const char* name : {"due", "overdue", "awaiting", "unplanned", "to-close", "inputs"}) {
    INFO(name);
    CHECK_FALSE(rows(ledger, name).empty());
  }
  const json due = rows(ledger, "due"), overdue = rows(ledger, "overdue"),
             awaiting = rows(ledger, "awaiting");
  std::set<std::string> states, bands;
  for (const json& row : due) states.insert(row["state"].get<std::string>());
  for (const json& row : overdue) states.insert(row["state"].get<std::string>());
  CHECK(states ==
        std::set<std::string>{"opened", "vetted", "invited", "booked", "did not attend", "not ready"});
  for (const json& row : awaiting) bands.insert(row["band"].get<std::string>());
  CHECK(bands.contains("grey"));
  CHECK(bands.contains("amber"));
  CHECK(bands.contains("red"));
}

TEST_CASE("the invented unit is the same every time", "[cli]") {
  const TemporaryFolder folder;
  demo(folder.file("a.ledger"), "30");
  demo(folder.file("b.ledger"), "30");
  const auto head = [&](const char* name) {
    const json report =
        json::parse(run_program({"audit", "verify", "--json", "--ledger", folder.file(name)}).out);
    return report["checkpoint"].get<std::string>();
  };
  CHECK(std::stoul(head("a.ledger")) > 100);
  // The last entries are the newcomer's signature, which carries the time of day: the unit itself is what is
  // compared.
  const auto patient = [&](const char* name) {
    return run_program({"patient", "P7", "--json", "--ledger", folder.file(name)}).out;
  };
  CHECK(patient("a.ledger") == patient("b.ledger"));
}

TEST_CASE("the demonstration never touches a ledger that is there", "[cli]") {
  const TemporaryFolder folder;
  const std::string ledger = folder.file("unit.ledger");
  support::write_file(ledger, "mine");
  CHECK(demo(ledger, "30").code == 4);
  CHECK(support::read_text(ledger) == "mine");
}
