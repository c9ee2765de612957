#include "reception/merge.h"

#include <catch2/catch.hpp>

using nlohmann::json;

namespace {

/// `id date` of each earlier examination, with commas between.
std::string previous_of(const json& record) {
  std::string line;
  for (const json& exam : record.value("previous", json::array())) {
    line += (line.empty() ? "" : ", ") + exam.value("id", "-") + " " + exam.value("date", "-");
  }
  return line;
}

}  // namespace

TEST_CASE("a record gets the earlier examinations that it lacks, oldest first", "[merge]") {
  struct Row {
    const char* because;
    const char* previous;  // of the record
    const char* earlier;   // on the ledger
    const char* merged;
  };
  const auto row = GENERATE(values<Row>({
      {"none anywhere", "[]", "[]", ""},
      {"one on the ledger", "[]", R"([{"id":"E1","date":"2023-01-01"}])", "E1 2023-01-01"},
      {"the record's own stays as given", R"([{"id":"E1","date":"2023-01-01"}])",
       R"([{"id":"E1","date":"2023-02-02"}])", "E1 2023-01-01"},
      {"one of the same day is the same", R"([{"date":"2023-01-01"}])",
       R"([{"id":"E1","date":"2023-01-01"}])", "- 2023-01-01"},
      {"the oldest comes first", R"([{"id":"E2","date":"2024-01-01"}])",
       R"([{"id":"E3","date":"2025-01-01"},{"id":"E1","date":"2023-01-01"}])",
       "E1 2023-01-01, E2 2024-01-01, E3 2025-01-01"},
      {"one of the day of the examination itself is not earlier", "[]",
       R"([{"id":"E9","date":"2026-03-10"}])", ""},
      {"a later one is not earlier", "[]", R"([{"id":"E9","date":"2026-03-11"}])", ""},
      {"what two records tell of counts once", "[]",
       R"([{"id":"E1","date":"2023-01-01"},{"date":"2023-01-01"},{"id":"E1","date":"2023-01-02"}])",
       "E1 2023-01-01"},
  }));
  INFO(row.because);
  json record = {{"exam", {{"id", "E9"}, {"date", "2026-03-10"}}}, {"previous", json::parse(row.previous)}};
  ledger::add_previous(record, json::parse(row.earlier));
  CHECK(previous_of(record) == row.merged);
}

TEST_CASE("a record that leaves `previous` out still does when nothing is known", "[merge]") {
  json record = {{"exam", {{"date", "2026-03-10"}}}};
  ledger::add_previous(record, {});
  CHECK_FALSE(record.contains("previous"));
}

TEST_CASE("earlier examinations told once are kept when the examination is recorded again without them",
          "[merge]") {
  struct Row {
    const char* because;
    const char* record;    // as far as `previous` goes
    const char* replaced;  // the same
    const char* kept;
  };
  const auto row = GENERATE(values<Row>({
      {"left out, what was told stands", R"({})", R"({"previous":[{"id":"E1","date":"2023-01-01"}]})",
       "E1 2023-01-01"},
      {"null is left out", R"({"previous":null})", R"({"previous":[{"id":"E1","date":"2023-01-01"}]})",
       "E1 2023-01-01"},
      {"an empty list takes it back", R"({"previous":[]})",
       R"({"previous":[{"id":"E1","date":"2023-01-01"}]})", ""},
      {"another list takes its place", R"({"previous":[{"id":"E2","date":"2024-01-01"}]})",
       R"({"previous":[{"id":"E1","date":"2023-01-01"}]})", "E2 2024-01-01"},
      {"nothing was told", R"({})", R"({})", ""},
      {"what is later than the corrected day is not earlier", R"({})",
       R"({"previous":[{"id":"E1","date":"2023-01-01"},{"id":"E3","date":"2026-03-11"}]})", "E1 2023-01-01"},
  }));
  INFO(row.because);
  json record = json::parse(row.record);
  record["exam"] = {{"id", "E9"}, {"date", "2026-03-10"}};
  ledger::keep_previous(record, json::parse(row.replaced));
  CHECK(previous_of(record) == row.kept);
}

TEST_CASE("histology that came as a result goes on its lesion", "[merge]") {
  struct Row {
    const char* because;
    const char* given;           // histology in the record, which is entry 10
    std::uint64_t result_entry;  // of the result, which says "result"
    const char* histology;
  };
  const auto row = GENERATE(values<Row>({
      {"the record leaves it open, the result came later", "null", 11, R"("result")"},
      {"the record leaves it open, the result came before", "null", 9, R"("result")"},
      {"the result is newer than the record", R"("record")", 11, R"("result")"},
      {"the record is newer than the result", R"("record")", 9, R"("record")"},
  }));
  INFO(row.because);
  json exam = {{"lesions", {{{"id", "L1"}, {"histology", json::parse(row.given)}}}}};
  ledger::put_histology(exam, 10, {{"L1", "result", row.result_entry}});
  CHECK(exam["lesions"][0]["histology"].dump() == row.histology);
}

TEST_CASE("a result for a lesion that is gone is passed over", "[merge]") {
  json exam = {{"lesions", {{{"id", "L1"}, {"histology", nullptr}}}}};
  ledger::put_histology(exam, 10, {{"L2", "result", 11}});
  CHECK(exam["lesions"][0]["histology"].is_null());
}

TEST_CASE("background told once is not lost when a later record leaves it out", "[merge]") {
  struct Row {
    const char* because;
    const char* patient;
    const char* expected;
  };
  const auto row = GENERATE(Catch::Generators::values<Row>({
      {"left out: the latest record that says anything counts", R"({})",
       R"({"conditions":[{"name":"lynch syndrome"}],"family_history":"high"})"},
      {"null is left out", R"({"conditions":null,"family_history":"none"})",
       R"({"conditions":[{"name":"lynch syndrome"}],"family_history":"none"})"},
      {"an empty list says none and stands", R"({"conditions":[]})",
       R"({"conditions":[],"family_history":"high"})"},
      {"what stopped surveillance must be said again", R"({"conditions":[],"family_history":"none"})",
       R"({"conditions":[],"family_history":"none"})"},
  }));
  INFO(row.because);
  json record = {{"patient", json::parse(row.patient)}};
  ledger::add_background(record, {json::parse(R"({"patient":{"family_history":"moderate"}})"),
                                  json::parse(R"({"patient":{"conditions":[{"name":"lynch syndrome"}],
                            "family_history":"high","life_expectancy_under_10_years":true}})"),
                                  json::parse(R"({"patient":{}})")});
  CHECK(record["patient"] == json::parse(row.expected));
}
