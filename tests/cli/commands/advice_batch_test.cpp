// Signing, and asking again, by a file that a person has looked through.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/records.h"
#include "support/temporary_unit.h"

using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

void record(const TemporaryUnit& unit, const std::vector<std::string>& exams) {
  std::string lines;
  for (const std::string& exam : exams) {
    lines +=
        a_record("H" + exam, exam, "2026-03-10", {a_lesion("L1", support::tubular_adenoma())}).dump() + "\n";
  }
  REQUIRE(unit.receive({"record", unit.file("records.jsonl", lines)}).code == 0);
}

std::string list(const TemporaryUnit& unit, const std::string& name) {
  return unit.run_today({name, "--format", "json"}).out;
}

Finished sign(const TemporaryUnit& unit, const std::string& text) {
  return unit.run_today({"advice", "sign-batch", unit.file("reviewed", text), "--by", "Dr Invented"});
}

}  // namespace

TEST_CASE("the list of those to be signed is signed as it was looked at", "[cli]") {
  const TemporaryUnit unit;
  record(unit, {"E1", "E2", "E3"});
  json reviewed = json::parse(list(unit, "to-sign"));
  REQUIRE(reviewed["rows"].size() == 3);
  reviewed["rows"].erase(1);  // the clinician does not agree with that one
  const Finished finished = sign(unit, reviewed.dump());
  INFO(finished.err);
  CHECK(finished.code == 0);
  CHECK(finished.out.find("2 named, 2 signed.") != std::string::npos);
  CHECK(finished.out.ends_with("local policy decides.\n"));
  CHECK(json::parse(list(unit, "to-sign"))["count"] == 1);

  const std::string before = unit.run({"audit", "verify"}).out;
  const Finished again = sign(unit, reviewed.dump());
  CHECK(again.code == 0);
  CHECK(again.out.find("2 named, 2 signed before.") != std::string::npos);
  CHECK(unit.run({"audit", "verify"}).out == before);
}

TEST_CASE("of a batch every good line is signed, and each bad one is named with its place", "[cli]") {
  const TemporaryUnit unit;
  record(unit, {"E1"});
  const json row = json::parse(list(unit, "to-sign"))["rows"][0];
  const Finished finished =
      sign(unit, "{\"exam\":\"E9\",\"advice\":3}\n\n{\"exam\":7}\nnonsense\n{\"exam\":\"E1\"}\n" +
                     json{{"exam", "E1"}, {"advice", 1}}.dump() + "\n" +
                     json{{"exam", "E1"}, {"advice", row["advice"]}}.dump() + "\n");
  CHECK(finished.code == 1);
  CHECK(finished.out.find("E1: signed: entry ") != std::string::npos);
  CHECK(finished.out.find("6 named, 5 refused, 1 signed.") != std::string::npos);
  for (const char* error :
       {"reviewed:1: error: no examination `E9` is on the ledger",
        "reviewed:3: error: `exam` is missing, or is no text", "reviewed:4: error: a row that is no object",
        "reviewed:5: error: no advice is named for examination `E1`",
        "reviewed:6: error: advice 1 is not the one that stands for examination `E1`"}) {
    INFO(finished.err);
    CHECK(finished.err.find(error) != std::string::npos);
  }
  CHECK(sign(unit, " \n").code == 3);
  CHECK(unit.run_today({"advice", "sign-batch", unit.folder.file("none"), "--by", "Dr Invented"}).code == 3);
}

TEST_CASE("a batch tells a program what became of each line", "[cli]") {
  const TemporaryUnit unit;
  record(unit, {"E1"});
  json reviewed = json::parse(list(unit, "to-sign"));
  reviewed["rows"].push_back({{"exam", "E9"}, {"advice", 3}});
  const Finished finished = unit.run_today(
      {"advice", "sign-batch", unit.file("reviewed", reviewed.dump()), "--by", "Dr Invented", "--json"});
  CHECK(finished.code == 1);
  const json told = json::parse(finished.out);
  CHECK(told["lines"][0]["what"] == "signed");
  CHECK(told["lines"][0]["recall"].get<std::string>().starts_with("R"));
  CHECK(told["lines"][1]["what"] == "refused");
  CHECK(told["lines"][1]["errors"][0]["path"] == "rows[1]");
  CHECK(told["counts"]["signed"] == 1);
}

TEST_CASE("who moves under a new guideline is advised anew, looked at and signed", "[cli]") {
  const TemporaryUnit unit;
  record(unit, {"E1", "E2"});
  REQUIRE(sign(unit, list(unit, "to-sign")).code == 0);
  const std::vector<std::string> rulesets = {"--rulesets", unit.rulesets};
  const auto with_rulesets = [&](std::vector<std::string> words) {
    words.insert(words.end(), rulesets.begin(), rulesets.end());
    return unit.run_today(words);
  };
  json moved = json::parse(with_rulesets({"revet", "--to", "test-b", "--format", "json"}).out);
  REQUIRE(moved["rows"].size() == 2);
  moved["rows"].erase(1);
  const std::string left = moved["rows"][0]["exam"];

  // Nothing that `revet` lists can be signed before it is advised.
  CHECK(sign(unit, moved.dump()).err.find("no advice is named for examination `" + left + "`") !=
        std::string::npos);
  REQUIRE(
      with_rulesets({"protocol", "adopt", "--ruleset", "test-b", "--by", "Dr Invented", "--reason", "new"})
          .code == 0);
  const std::vector<std::string> again = {"advice", "again", "--named-in", unit.file("moved", moved.dump())};
  const Finished asked = with_rulesets(again);
  INFO(asked.out << asked.err);
  CHECK(asked.code == 0);
  CHECK(asked.out.find("settled, surveillance colonoscopy, due 2027-03-10 (test-b)") != std::string::npos);
  CHECK(asked.out.find("the advice was signed; the new one must be signed") != std::string::npos);
  CHECK(with_rulesets(again).out.find("1 named, 0 advised anew, 1 unchanged, 0 refused.") !=
        std::string::npos);
  CHECK(with_rulesets({"advice", "again", "E9", left}).code == 1);  // the other is asked about all the same
  CHECK(with_rulesets({"advice", "again", "E9", left}).err.find("no examination `E9`") != std::string::npos);

  const json waiting = json::parse(list(unit, "to-sign"));
  REQUIRE(waiting["count"] == 1);
  CHECK(waiting["rows"][0]["exam"] == left);
  CHECK(sign(unit, waiting.dump()).code == 0);
  const json due = json::parse(
      unit.run_today({"due", "--from", "2000-01-01", "--to", "2100-01-01", "--format", "json"}).out);
  std::string days;
  for (const json& row : due["rows"]) days += row["due"].get<std::string>() + " ";
  CHECK((days == "2027-03-10 2029-03-10 " || days == "2029-03-10 2027-03-10 "));
}
