// The one line that the ledger stores. Canonical form is checked against the writer of canonical JSON, which
// works from a parsed document instead.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <tuple>

#include "engine/advice/sample_advice.h"
#include "engine/canonical.h"

using namespace engine;
using namespace engine::testing;

TEST_CASE("advice is written in the shape of the contract", "[advice]") {
  const std::string standing =
      R"("this supports and does not replace the judgement of the responsible clinician; local policy decides")";
  const std::string ruleset = R"("ruleset":{"digest":"sha256:aa","edition":"1.0.0","id":"test-2026"})";
  const auto row = GENERATE_COPY(values<std::tuple<const char*, Advice, std::string>>({
      {"settled: interval, anchor, window, reasons, facts by name, later steps", settled_sample(),
       R"({"action":"site check","assumed":["patient.family_history: not stated, taken as none"],)"
       R"("cautions":["row 20-07 is from memory: read it in the paper before use",)" +
           standing + "]," +
           R"("counted_from":{"date":"2026-03-10","what":"resection"},"due":{"from":"2026-05-10","to":"2026-09-10"},)"
           R"("facts":{"advanced":"true","class":"\"high\"","largest":"25","premalignant polyps":"2"},)"
           R"("flags":[{"because":"ten adenomas or more","flag":"genetic assessment","rule":"20-99"}],"id":"case-1",)"
           R"("interval":{"from":"P2M","to":"P6M"},"possible":[],"questions":[],"reasons":[)"
           R"({"because":"a 25 mm polyp was removed in pieces","evidence":"secondary","rule":"20-05","source":"Test guideline 2026, figure 2"},)"
           R"({"because":"two premalignant polyps, one of them 10 mm or larger","evidence":"guideline","rule":"20-01","source":"Test guideline 2026, abstract"}],)"
           R"("record":"sha256:bb",)" +
           ruleset +
           R"(,"state":"settled","then":[{"action":"surveillance colonoscopy",)"
           R"("because":"once the site is clear twice","counted_from":"site check","interval":{"from":"P3Y","to":"P3Y"},"rule":"20-07"}]})"},
      {"awaiting: what may come, and what is asked", awaiting_sample(),
       R"({"action":"await pathology","assumed":[],"cautions":[)" + standing +
           R"(],"counted_from":null,"due":null,"facts":{},"flags":[],"id":"case-2","interval":null,"possible":[)"
           R"({"action":"surveillance colonoscopy","due":{"from":"2029-03-10","to":"2029-03-10"},"interval":{"from":"P3Y","to":"P3Y"},"rule":"20-01",)"
           R"("when":["exam.lesions[1].histology.type = tubular adenoma","exam.lesions[1].size_mm >= 10"]},)"
           R"({"action":"no surveillance","due":null,"interval":null,"rule":"20-02","when":[]}],)"
           R"("questions":[{"fact":"exam.lesions[1].histology","why":"the report is awaited: it decides"}],)"
           R"("reasons":[{"because":"the histology of 1 lesion is awaited, and decides","evidence":"engine","rule":"pathology-gate","source":"this program"}],)"
           R"("record":"sha256:bb",)" +
           ruleset + R"(,"state":"awaiting pathology","then":[]})"},
      {"depends: no action; no id of the caller is null", depends_sample(),
       R"({"action":null,"assumed":[],"cautions":[)" + standing +
           R"(],"counted_from":null,"due":null,"facts":{},"flags":[],"id":null,"interval":null,"possible":[],)"
           R"("questions":[{"fact":"patient.birth_date","why":"not stated: the ruleset cannot answer without it"}],)"
           R"("reasons":[],"record":"sha256:bb",)" +
           ruleset + R"(,"state":"depends","then":[]})"},
      {"outside: which ruleset to ask", outside_sample(),
       R"({"action":"refer","ask_instead":"test-hereditary","assumed":[],"cautions":[)" + standing +
           R"(],"counted_from":null,"due":null,"facts":{},"flags":[],"id":"case-4","interval":null,"possible":[],"questions":[],)"
           R"("reasons":[{"because":"Lynch syndrome","evidence":"memory","rule":"20-00","source":"Test guideline 2026, scope"}],)"
           R"("record":"sha256:bb",)" +
           ruleset + R"(,"state":"outside","then":[]})"},
      {"refused: the errors; a record that could not be read has no digest and met no ruleset",
       refused_sample(),
       R"({"action":null,"assumed":[],"cautions":[)" + standing +
           R"(],"counted_from":null,"due":null,"errors":[{"code":"unknown_key","help":"did you mean `size_mm`?",)"
           R"("message":"a lesion has no `colour`","path":"exam.lesions[0].colour"}],"facts":{},"flags":[],)"
           "\"id\":\"case-5 \\\"\u00e9\\\"\\n\","
           R"("interval":null,"possible":[],"questions":[],"reasons":[],"record":null,"ruleset":null,"state":"refused","then":[]})"},
  }));
  INFO(std::get<0>(row));
  const std::string line = json_of(std::get<1>(row));
  CHECK(line == std::get<2>(row));
  CHECK(line == canonical_json(nlohmann::json::parse(line)));
}

TEST_CASE("fact names are sorted as RFC 8785 sorts keys, by UTF-16 code units", "[advice]") {
  Advice advice = depends_sample();
  // U+FF5E comes after U+1F600 in UTF-16 (surrogates), before it in UTF-8.
  advice.facts = {{"\uFF5E", "1"}, {"\U0001F600", "2"}, {"a", "3"}};
  const std::string line = json_of(advice);
  CHECK(line == canonical_json(nlohmann::json::parse(line)));
}
