#include <catch2/catch.hpp>

#include "engine/record.h"
#include "support/builders.h"

namespace engine {
namespace {

using support::a_lesion;
using support::a_record;
using support::LesionBuilder;

Examination examination(const std::vector<LesionBuilder>& lesions) {
  auto record = a_record();
  for (const LesionBuilder& lesion : lesions) record.with(lesion);
  const auto read = read_record(record.text(), "test");
  REQUIRE(read);
  return read->exam;
}

TEST_CASE("histology is awaited of what was cut and not lost", "[record]") {
  struct Row {
    const char* because;
    LesionBuilder lesion;
    bool awaited;
  };
  const auto row = GENERATE(values<Row>({
      {"the report is there", a_lesion(), false},
      {"the report is there and says nothing", a_lesion().with_fact("histology", nlohmann::json::object()),
       false},
      {"retrieved, no report yet", a_lesion().awaiting_histology(), true},
      {"a biopsy, no report yet", a_lesion().removed("biopsy only").awaiting_histology(), true},
      {"not said whether it was retrieved", a_lesion().without("retrieved").awaiting_histology(), true},
      {"not said whether it was removed", a_lesion().without("removal").without("histology"), true},
      {"lost", a_lesion().lost(), false},
      {"left in place", a_lesion().left_in_place(), false},
      {"left in place, retrieval not stated", a_lesion().left_in_place().without("retrieved"), false},
  }));
  INFO(row.because);
  const Examination exam = examination({row.lesion});
  CHECK(exam.lesions[0].awaits_histology() == row.awaited);
  CHECK(exam.awaits_histology() == row.awaited);
}

TEST_CASE("the findings stand in a line", "[record]") {
  struct Row {
    const char* because;
    std::vector<LesionBuilder> lesions;
    const char* line;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing found", {}, "no polyps"},
      {"one", {a_lesion().of(4_mm)}, "1 polyp, largest 4 mm (sigmoid colon); 1 adenoma"},
      {"several kinds, one awaited",
       {a_lesion().of(12_mm), a_lesion().of(3_mm).at("rectum"),
        a_lesion().of(4_mm).found_to_be("villous adenoma"),
        a_lesion().found_to_be("sessile serrated lesion", "none"), a_lesion().awaiting_histology()},
       "5 polyps, largest 12 mm (sigmoid colon); 3 adenomas, 1 serrated; 1 awaiting histology"},
      {"the worst first",
       {a_lesion().found_to_be("hyperplastic polyp", "none"), a_lesion().found_to_be("normal mucosa", "none"),
        a_lesion().found_to_be("adenocarcinoma", "high grade")},
       "3 polyps, largest 5 mm (sigmoid colon); 1 cancer, 1 hyperplastic, 1 other"},
      {"an entry that stands for several",
       {a_lesion().standing_for(3), a_lesion().with_fact("number", {{"from", 2}, {"to", 4}}).lost()},
       "5 to 7 polyps, largest 5 mm (sigmoid colon); 3 adenomas; 2 to 4 without histology"},
      {"sizes in doubt",
       {a_lesion().with_fact("size_mm", {{"from", 8}, {"to", 12.5}}), a_lesion().of(10_mm)},
       "2 polyps, largest 8 to 12.5 mm (sigmoid colon); 2 adenomas"},
      {"a size is missing",
       {a_lesion().of(10_mm), a_lesion().without("size_mm")},
       "2 polyps, largest stated 10 mm (sigmoid colon); 2 adenomas"},
      {"all sizes are missing", {a_lesion().without("size_mm")}, "1 polyp, size not stated; 1 adenoma"},
      {"the site is missing", {a_lesion().without("site")}, "1 polyp, largest 5 mm; 1 adenoma"},
      {"the type is in doubt",
       {a_lesion().with_fact("histology", {{"type", {"tubular adenoma", "villous adenoma"}}})},
       "1 polyp, largest 5 mm (sigmoid colon); 1 of doubtful type"},
      {"left in place",
       {a_lesion().left_in_place()},
       "1 polyp, largest 5 mm (sigmoid colon); 1 without histology"},
  }));
  INFO(row.because);
  CHECK(findings_line(examination(row.lesions)) == row.line);
}

TEST_CASE("findings that are not stated are not called none", "[record]") {
  const auto record = read_record(R"({"exam":{"date":"2026-03-10"}})", "test");
  REQUIRE(record);
  CHECK(findings_line(record->exam) == "findings not stated");
}

}  // namespace
}  // namespace engine
