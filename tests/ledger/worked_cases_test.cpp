// The worked cases of a real ruleset, each taken through the ledger: what comes out is what the ruleset says
// without a ledger, nobody is lost on the way, and all of it can be proved afterwards.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "ledger/audit.h"
#include "ledger/lists.h"
#include "ledger/signing.h"
#include "support/places.h"
#include "support/shipped_rulesets.h"
#include "support/temporary_ledger.h"

using namespace support;
using nlohmann::json;

namespace {

const std::filesystem::path folder = support::source("rulesets/uk-2020");

ledger::Protocol protocol_in_force() {
  return {{value_of(support::load_shipped("uk-2020")), support::bytes_of_file(folder / "ruleset.dmn")}};
}

/// Each case as the record of a person of its own.
std::vector<json> records() {
  std::vector<json> records;
  std::ifstream cases(folder / "guideline.cases.jsonl");
  for (std::string line; std::getline(cases, line);) {
    json record = json::parse(line).at("given");
    const std::string number = std::to_string(records.size() + 1);
    record["patient"]["identifiers"] = {{{"system", "hospital-number"}, {"value", "H" + number}}};
    record["exam"]["id"] = "E" + number;
    records.push_back(std::move(record));
  }
  return records;
}

}  // namespace

TEST_CASE("worked cases go through the ledger and come out as the ruleset says", "[ledger][slow]") {
  TemporaryLedger unit;
  unit.protocol = protocol_in_force();
  const auto given = records();
  REQUIRE(given.size() > 10);
  std::set<std::string> settled, listed;
  for (const json& record : given) {
    const auto receipt = unit.record(record);
    INFO(record.dump());
    REQUIRE(receipt.received == ledger::Received::recorded);
    const auto plain = value_of(engine::read_record(record.dump(), "case"));
    const auto advice = engine::advise(unit.protocol[0].ruleset, plain, unit.clock.today(), receipt.exam);
    CHECK(engine::json_of(receipt.answers.at(0)) == engine::json_of(advice));
    const bool done = static_cast<bool>(ledger::sign(unit.ledger, unit.author, receipt.exam, "Dr Rao", 0));
    if (done) settled.insert(receipt.exam);
    CHECK((done || advice.state != engine::AdviceState::settled ||
           advice.action == engine::Action::individualise || !advice.due));
  }
  for (const auto& line : value_of(ledger::unplanned(unit.ledger, unit.clock.today(), {}))) {
    CHECK(listed.insert(line.examination.exam).second);
  }
  for (const auto& line : value_of(ledger::awaiting(unit.ledger, unit.clock.today(), {}))) {
    listed.insert(line.examination.exam);
  }
  for (const json& record : given) {
    const std::string exam = record["exam"]["id"];
    INFO(exam);
    CHECK((settled.contains(exam) || listed.contains(exam)));
  }
  CHECK(value_of(ledger::verify(unit.path, std::nullopt)).faults.empty());
  const auto replayed = value_of(ledger::replay(unit.ledger));
  CHECK(replayed.faults.empty());
  CHECK(replayed.advices == given.size());
}
