#include "reception/result_format.h"

#include <catch2/catch.hpp>

TEST_CASE("a result is read", "[result]") {
  const auto report = ledger::read_result(R"({"exam":"E1","specimens":[{"id":"A","lesions":[
      {"id":"L1","histology":{"type":"tubular adenoma"}},{"id":"L2","histology":{}}]},
      {"accession":"26H1","histology":{"type":"hamartoma"}}],"reported":"2026-03-15","reporter":"Dr Made-Up"})");
  REQUIRE(report);
  CHECK(report->exam == "E1");
  CHECK(report->reported == "2026-03-15");
  CHECK(report->reporter == "Dr Made-Up");
  REQUIRE(report->pots.size() == 2);
  CHECK(report->pots[0].id == "A");
  REQUIRE(report->pots[0].lesions.size() == 2);
  CHECK(report->pots[0].lesions[0].lesion == "L1");
  CHECK(report->pots[0].lesions[0].histology.dump() == R"({"type":"tubular adenoma"})");
  CHECK(report->pots[0].lesions[1].path == "specimens[0].lesions[1]");
  CHECK(report->pots[1].accession == "26H1");
  CHECK(report->pots[1].lesions[0].lesion.empty());
  CHECK(report->pots[1].lesions[0].path == "specimens[1]");
}

TEST_CASE("a result that is not as it should be is refused with the place", "[result]") {
  struct Row {
    const char* because;
    const char* text;
    const char* errors;  // path: code, with commas between
  };
  const auto row = GENERATE(values<Row>({
      {"no JSON", "{", ": broken_json"},
      {"no object", "[]", ": wrong_type"},
      {"nothing in it", "{}", ": missing_key, reported: missing_key, specimens: missing_key"},
      {"an unknown key",
       R"({"exam":"E","spezimens":[],"specimens":[{"id":"A","histology":{}}],"reported":"2026-03-15"})",
       "spezimens: unknown_key"},
      {"an examination named in two ways",
       R"({"exam":"E","accession":"26H1","specimens":[{"id":"A","histology":{}}],"reported":"2026-03-15"})",
       ": too_many_keys"},
      {"an impossible date",
       R"({"exam":"E","specimens":[{"id":"A","histology":{}}],"reported":"2026-02-30"})",
       "reported: bad_date"},
      {"no pots", R"({"exam":"E","specimens":[],"reported":"2026-03-15"})", "specimens: missing_key"},
      {"a pot without a name", R"({"exam":"E","specimens":[{"histology":{}}],"reported":"2026-03-15"})",
       "specimens[0]: missing_key"},
      {"a pot without lesions", R"({"exam":"E","specimens":[{"id":"A"}],"reported":"2026-03-15"})",
       "specimens[0].lesions: missing_key"},
      {"lesions and histology at once",
       R"({"exam":"E","specimens":[{"id":"A","lesions":[],"histology":{}}],"reported":"2026-03-15"})",
       "specimens[0]: too_many_keys"},
      {"a lesion without an id",
       R"({"exam":"E","specimens":[{"id":"A","lesions":[{"histology":{}}]}],"reported":"2026-03-15"})",
       "specimens[0].lesions[0].id: missing_key"},
      {"histology that is no object",
       R"({"exam":"E","specimens":[{"id":"A","lesions":[{"id":"L1","histology":null}]}],"reported":"2026-03-15"})",
       "specimens[0].lesions[0].histology: missing_key"},
      {"a key that stands twice",
       R"({"exam":"E","exam":"F","specimens":[{"id":"A","histology":{}}],"reported":"2026-03-15"})",
       ": duplicate_key"},
      {"several faults at once", R"({"exam":7,"specimens":[{"id":"","histology":[]}],"reported":1})",
       "exam: wrong_type, : missing_key, reported: wrong_type, specimens[0].id: wrong_type, specimens[0]: "
       "missing_key, "
       "specimens[0].histology: missing_key"},
  }));
  INFO(row.because);
  const auto report = ledger::read_result(row.text);
  REQUIRE_FALSE(report);
  std::string errors;
  for (const engine::Error& error : report.errors()) {
    errors += (errors.empty() ? "" : ", ") + error.place.path + ": " + error.code;
  }
  CHECK(errors == row.errors);
}

TEST_CASE("an unknown key brings the known one to mind", "[result]") {
  const auto report = ledger::read_result(
      R"({"exam":"E","specimens":[{"id":"A","histology":{}}],"reported":"2026-03-15","reporters":"x"})");
  REQUIRE_FALSE(report);
  CHECK(report.errors().front().help.starts_with("did you mean `reporter`?"));
}
