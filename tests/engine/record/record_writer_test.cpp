// A record that was read, written and read again is the same record.

#include <catch2/catch.hpp>

#include "engine/advice.h"
#include "engine/representative.h"
#include "support/shipped_rulesets.h"

using namespace engine;

TEST_CASE("a written record reads as the record that it was", "[record]") {
  std::size_t records = 0;
  for (const std::string& id : support::shipped_ruleset_ids()) {
    std::ifstream cases(support::rulesets_folder / id / "guideline.cases.jsonl");
    for (std::string line; std::getline(cases, line);) {
      const auto record = read_record(line, id);
      REQUIRE(record);
      const std::string text = json_of(*record);
      INFO(id << ": " << text);
      const auto again = read_record(text, "again");
      REQUIRE(again);
      CHECK(json_of(*again) == text);
      CHECK(findings_line(again->exam) == findings_line(record->exam));
      ++records;
    }
  }
  CHECK(records > 100);
}

TEST_CASE("bounds, open facts and half millimetres are written as they were", "[record]") {
  const std::string text =
      R"({"exam":{"date":"2026-03-10","lesions":[{"histology":{"type":["tubular adenoma","hyperplastic polyp"]},)"
      R"("number":{"from":2,"to":4},"retrieved":true,"size_mm":{"from":8.5,"to":12}}],"reached":"caecum"},)"
      R"("patient":{"conditions":[{"gene":"MLH1","name":"lynch syndrome"}]},"setting":{"nation":"Wales"}})";
  const auto record = read_record(text, "test");
  REQUIRE(record);
  CHECK(json_of(*record) == text);
}

TEST_CASE("what only people see is written as it was", "[record]") {
  const std::string text =
      R"({"exam":{"complications":[{"kind":"bleeding","on":"2026-03-12","severity":"mild"}],"date":"2026-03-10",)"
      R"("specimens":[{"accession":"26H1","id":"A","sent":"2026-03-10"}]},)"
      R"("patient":{"contact":{"address":["1 Mill Lane","Ambleworth"],"email":"a@example.org","telephone":"1"},)"
      R"("family_doctor":{"address":["3 Mill Lane"],"name":"Dr F. Aldous","practice":"Mill Lane Surgery"},)"
      R"("identifiers":[{"system":"hospital-number","value":"H1"}],"name":{"family":"Example","given":"Ada"},)"
      R"("needs":[{"flag":"anticoagulant","since":"2024-02-01","source":"pre-assessment"}]},)"
      R"("previous":[{"complications":[],"date":"2021-01-01","lesions":[]}],"setting":{}})";
  const auto record = read_record(text, "test");
  REQUIRE(record);
  CHECK(json_of(*record) == text);
}

TEST_CASE("an answer does not change when its record is written and read again", "[record][rulesets]") {
  const auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  Adviser adviser(*ruleset);
  std::size_t tried = 0;
  each_representative_record(numeric_literals(*(*ruleset)->model), [&](const RepresentativeRecord& made) {
    if (++tried % 50 != 0) return;
    const auto again = read_record(json_of(made.record), "made");
    REQUIRE(again);
    const Advice direct = adviser.advise(made.record, representative_day());
    const Advice read = adviser.advise(*again, representative_day());
    INFO(json_of(made.record));
    CHECK(read.action == direct.action);
    CHECK(read.due == direct.due);
    CHECK(read.fired == direct.fired);
  });
  CHECK(tried > 1000);
}
