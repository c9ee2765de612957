#include "protocols.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "engine/record.h"
#include "support/places.h"
#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::Finished;
using support::TemporaryUnit;

namespace {

json sound() {
  return {{"id", "unit"},
          {"title", "Made for tests"},
          {"rulesets", {"test-a", "test-b"}},
          {"settings", json::object()},
          {"interval_end", "from"}};
}

void put(const TemporaryUnit& unit, const json& protocol) {
  support::write_file(unit.rulesets + "/protocols/unit.json", protocol.dump());
}

std::string record() {
  return support::a_record("H1", "E1", "2026-03-10", {support::a_lesion("L1", support::tubular_adenoma())})
      .dump();
}

Finished advise(const TemporaryUnit& unit, std::vector<std::string> words) {
  words.insert(words.begin(), "advise");
  words.insert(words.end(), {"--rulesets", unit.rulesets, "--json"});
  return support::run_program(words, record());
}

}  // namespace

TEST_CASE("a protocol asks its rulesets, and the earliest answer leads", "[cli]") {
  const TemporaryUnit unit;
  put(unit, sound());
  const json answer = json::parse(advise(unit, {"--protocol", "unit"}).out);
  CHECK(answer["ruleset"]["id"] == "test-b");  // after one year; test-a after three
  REQUIRE(answer["answers"].size() == 2);
  CHECK(answer["answers"][0]["ruleset"]["id"] == "test-a");
}

TEST_CASE("the commands of the ledger follow a protocol too", "[cli]") {
  const TemporaryUnit unit;
  put(unit, sound());
  const Finished finished =
      support::run_program({"record", unit.file("a.json", record()), "--ledger", unit.ledger, "--rulesets",
                            unit.rulesets, "--protocol", "unit"});
  INFO(finished.err);
  CHECK(finished.code == 0);
  CHECK(support::read_text(unit.ledger).find("ruleset:test-b") != std::string::npos);
}

TEST_CASE("a setting of the protocol stands in for what the record leaves out", "[cli]") {
  const TemporaryUnit unit;
  json protocol = sound();
  protocol["settings"] = {{"screening_from_age", 45}};
  put(unit, protocol);
  const auto digest = [&](const std::string& text) {
    return json::parse(
        support::run_program({"advise", "--protocol", "unit", "--rulesets", unit.rulesets, "--json"}, text)
            .out)["record"];
  };
  json stated = json::parse(record());
  stated["setting"] = {{"screening_from_age", 45}};
  CHECK(digest(record()) == digest(stated.dump()));
  json another = stated;
  another["setting"]["screening_from_age"] = 55;
  CHECK(digest(another.dump()) == engine::read_record(another.dump(), "test")->digest);
}

TEST_CASE("settings of a protocol hold in the ledger from the day on which they are adopted, and not before",
          "[cli]") {
  const TemporaryUnit unit;
  json protocol = sound();
  struct Row {
    const char* because;
    const char* key;
    json asked, other;
  };
  const auto row = GENERATE(values<Row>({
      {"a setting of the unit", "settings", {{"nation", "Wales"}}, {{"nation", "Scotland"}}},
      {"the end of the window", "interval_end", "to", "from"},
  }));
  INFO(row.because);
  const std::string file = unit.file("a.json", record());
  const auto run = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--rulesets", unit.rulesets, "--protocol", "unit"});
    return unit.run_today(words);
  };
  protocol[row.key] = row.asked;
  put(unit, protocol);
  const Finished refused = run({"record", file});
  CHECK(refused.code == 2);
  CHECK(refused.err.find(
            "the protocol `unit` asks for settings or an end of the window that are not in force") !=
        std::string::npos);
  CHECK(refused.err.find("dueward protocol adopt --protocol unit") != std::string::npos);

  REQUIRE(run({"protocol", "adopt", "--by", "Dr Invented", "--reason", "ours"}).code == 0);
  const Finished followed = run({"record", file});
  INFO(followed.err);
  CHECK(followed.code == 0);
  CHECK(run({"record", file}).code == 0);  // the same again changes nothing

  protocol[row.key] = row.other;
  put(unit, protocol);
  CHECK(run({"record", file}).code == 2);
}

TEST_CASE("a protocol that leaves the settings open goes with those that are in force", "[cli]") {
  const TemporaryUnit unit;
  put(unit, sound());
  const std::vector<std::string> where = {"--rulesets", unit.rulesets, "--protocol", "unit"};
  std::vector<std::string> adopt = {"protocol", "adopt", "--by",      "Dr Invented",
                                    "--reason", "ours",  "--setting", "nation=Wales"};
  adopt.insert(adopt.end(), where.begin(), where.end());
  REQUIRE(unit.run_today(adopt).code == 0);
  std::vector<std::string> words = {"record", unit.file("a.json", record())};
  words.insert(words.end(), where.begin(), where.end());
  CHECK(unit.run_today(words).code == 0);
}

TEST_CASE("a faulty protocol is refused by name", "[cli]") {
  const TemporaryUnit unit;
  struct Row {
    const char* because;
    json change;
    const char* error;
  };
  const Row rows[] = {
      {"a ruleset that is not there",
       {{"rulesets", {"test-a", "test-x"}}},
       "names the ruleset `test-x`, which is not in"},
      {"no rulesets", {{"rulesets", json::array()}}, "`rulesets` is missing"},
      {"a ruleset that is no id", {{"rulesets", {7}}}, "`7` was read, expected the id of a ruleset"},
      {"another name than its file", {{"id", "other"}}, "the protocol calls itself `other`"},
      {"a key that is none", {{"ruleset", "test-a"}}, "a protocol has no `ruleset`"},
      {"an end that is none", {{"interval_end", "middle"}}, "expected `from` or `to`"},
      {"a setting that is none", {{"settings", {{"natoin", "Wales"}}}}, "natoin"},
      {"no title", {{"title", ""}}, "`title` is missing"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    json protocol = sound();
    protocol.update(row.change);
    put(unit, protocol);
    const Finished finished = advise(unit, {"--protocol", "unit"});
    CHECK(finished.code == 2);
    CHECK(finished.out.empty());
    CHECK(finished.err.find("protocols/unit.json") != std::string::npos);
    CHECK(finished.err.find(row.error) != std::string::npos);
  }
}

TEST_CASE("a protocol that is not there names those that are", "[cli]") {
  const TemporaryUnit unit;
  put(unit, sound());
  const Finished finished = advise(unit, {"--protocol", "../unit"});
  CHECK(finished.code == 2);
  CHECK(finished.err.find("there are `unit`") != std::string::npos);
}

TEST_CASE("a ruleset of a protocol that cannot be loaded ends the command", "[cli]") {
  const TemporaryUnit unit;
  put(unit, sound());
  support::write_file(unit.rulesets + "/test-b/ruleset.dmn", "<definitions");
  const Finished finished = advise(unit, {"--protocol", "unit"});
  CHECK(finished.code == 3);
  CHECK(finished.err.find("test-b/ruleset.dmn") != std::string::npos);
}

TEST_CASE("the protocols of this tree can be followed", "[cli]") {
  const std::filesystem::path folder = support::source("rulesets");
  const std::vector<std::string> ids = cli::protocol_ids(folder);
  CHECK(ids == std::vector<std::string>{"europe", "uk", "us"});
  for (const std::string& id : ids) {
    INFO(id);
    const auto preset = cli::read_protocol(folder, id);
    REQUIRE(preset);
    CHECK(preset->rulesets.size() > 2);
    const Finished finished =
        support::run_program({"advise", "--protocol", id, "--rulesets", folder.string(), "--json"}, record());
    INFO(finished.err);
    CHECK(finished.code == 0);
    CHECK(json::parse(finished.out)["answers"].size() == preset->rulesets.size());
  }
}
