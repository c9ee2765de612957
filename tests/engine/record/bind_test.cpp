#include "record/bind.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "engine/record.h"
#include "record/terms.h"
#include "support/builders.h"

namespace engine {
namespace {

using support::a_lesion;
using support::a_record;
using support::LesionBuilder;

struct Bound {
  Record record;
  Arena arena;
  BoundRecord bound;
};

std::unique_ptr<Bound> bound(const std::string& text) {
  auto record = read_record(text, "test");
  REQUIRE(record);
  auto result = std::make_unique<Bound>();
  result->record = std::move(*record);
  bind(result->record, result->arena, result->bound);
  return result;
}

Value at(const Value& context, std::string_view key) {
  REQUIRE(context.is(Kind::context));
  const Context& members = context.context();
  const std::uint32_t position = members.position(key);
  INFO(key);
  REQUIRE(position < members.size);
  return members.values[position];
}

std::string keys_of(const Value& context) {
  std::string out;
  for (std::uint32_t i = 0; i < context.context().size; ++i) {
    if (i > 0) out += ' ';
    out += context.context().keys[i];
  }
  return out;
}

/// One value as this test writes it: open facts as `?path`.
std::string shown(const Value& value, const BoundRecord& record) {
  switch (value.kind()) {
    case Kind::null:
      return "null";
    case Kind::boolean:
      return value.boolean() ? "true" : "false";
    case Kind::number:
      return value.number().text();
    case Kind::string:
      return std::string(value.string());
    case Kind::date:
      return text_of(value.date());
    case Kind::list:
      return "list of " + std::to_string(value.list().size());
    case Kind::context:
      return "{" + keys_of(value) + "}";
    case Kind::open_fact:
      return "?" + record.facts.at(value.fact()).path;
    default:
      return "something else";
  }
}

std::string why(OpenFact::Why reason) {
  static constexpr const char* words[] = {"awaited", "lost", "not stated", "bounded", "assumed"};
  return words[static_cast<std::size_t>(reason)];
}

/// A fact as a line: why, what it may be, and what it is assumed to be.
std::string line_of(const OpenFact& fact, const BoundRecord& record) {
  std::string out = fact.path + ": " + why(fact.why);
  if (fact.why == OpenFact::Why::assumed) return out + " " + shown(fact.assumed, record);
  for (std::size_t i = 0; i < fact.options.size(); ++i) {
    out.append(i == 0 ? ", " : " or ").append(shown(fact.options[i], record));
  }
  if (fact.least)
    out += ", " + std::to_string(fact.least->tenths) + " to " + std::to_string(fact.most->tenths) + " tenths";
  if (fact.type_fact >= 0)
    out += ", as " + record.facts.at(static_cast<std::size_t>(fact.type_fact)).path + " allows";
  return out;
}

/// The open facts of the examination; background is another test's.
std::vector<std::string> exam_facts(const Bound& bound) {
  std::vector<std::string> lines;
  for (const OpenFact& fact : bound.bound.facts) {
    if (fact.path.starts_with("exam")) lines.push_back(line_of(fact, bound.bound));
  }
  return lines;
}

TEST_CASE("rules see the keys of the record in the order of its description", "[record]") {
  const auto record = bound(a_record()
                                .with(a_lesion())
                                .with_condition({{"name", "lynch syndrome"}})
                                .with_fact("/patient/relatives", {{{"degree", 1}, {"cancer", "colorectal"}}})
                                .text());
  const BoundRecord& seen = record->bound;
  CHECK(keys_of(seen.patient) ==
        "birth_date sex conditions relatives family_history life_expectancy_under_10_years");
  CHECK(keys_of(at(seen.patient, "conditions").list()[0]) ==
        "name gene onset resection_date extent activity post_inflammatory_polyps stricture "
        "dysplasia_within_5_years");
  CHECK(keys_of(at(seen.patient, "relatives").list()[0]) == "degree cancer age");
  CHECK(keys_of(seen.exam) ==
        "id date indication procedure reached cleared preparation endoscopist place lesions");
  CHECK(keys_of(at(seen.exam, "preparation")) == "boston graded");
  CHECK(keys_of(at(at(seen.exam, "preparation"), "boston")) == "right transverse left");
  const Value lesion = at(seen.exam, "lesions").list()[0];
  CHECK(keys_of(lesion) == "id number site size_mm paris removal retrieved specimen histology");
  CHECK(keys_of(at(lesion, "histology")) == "type dysplasia margin size_mm");
  CHECK(keys_of(seen.setting) == "nation screening_from_age organised_screening adenoma_detection_adequate");
}

TEST_CASE("what is known stands as it is", "[record]") {
  struct Row {
    const char* because;
    std::vector<const char*> path;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a date", {"date"}, "2026-03-10"},
      {"a term", {"indication"}, "screening"},
      {"a score", {"preparation", "boston", "transverse"}, "3"},
      {"a Boston score makes the grade superfluous", {"preparation", "graded"}, "null"},
      {"cleared is derived when it is left out", {"cleared"}, "null"},
      {"text that is left out is empty", {"place"}, ""},
      {"an id", {"lesions", "id"}, "L1"},
      {"an entry is one polyp", {"lesions", "number"}, "1"},
      {"a size in tenths", {"lesions", "size_mm"}, "12.5"},
      {"the shape", {"lesions", "paris"}, "0-Is"},
      {"truth", {"lesions", "retrieved"}, "true"},
      {"a type", {"lesions", "histology", "type"}, "tubular adenoma"},
      {"the pathologist's size is not asked for", {"lesions", "histology", "size_mm"}, "null"},
  }));
  INFO(row.because);
  const auto record = bound(a_record().with(a_lesion().of({125})).text());
  Value value = record->bound.exam;
  for (const char* key : row.path) {
    value = at(value, key);
    if (value.is(Kind::list)) value = value.list()[0];
  }
  CHECK(shown(value, record->bound) == row.value);
  CHECK(exam_facts(*record).empty());
}

TEST_CASE("whole millimetres are plain whole numbers", "[record]") {
  const auto record = bound(a_record().with(a_lesion().of(20_mm)).text());
  const Value size = at(at(record->bound.exam, "lesions").list()[0], "size_mm");
  CHECK(size.is_plain_integer());
  CHECK(size.plain_integer() == 20);
}

TEST_CASE("what is in doubt is open, with all that it may be", "[record]") {
  struct Row {
    const char* because;
    LesionBuilder lesion;
    std::vector<std::string> facts;
  };
  const std::string lesion = "exam.lesions[0].";
  const std::string types =
      "tubular adenoma or tubulovillous adenoma or villous adenoma or sessile serrated lesion or "
      "traditional serrated adenoma or hyperplastic polyp or unclassified serrated polyp or "
      "inflammatory polyp or hamartoma or normal mucosa or adenocarcinoma";
  const auto unknown_histology = [&](const std::string& reason) {
    return std::vector<std::string>{
        lesion + "histology.type: " + reason + ", " + types,
        lesion + "histology.dysplasia: " + reason + ", none or low grade or high grade, as " + lesion +
            "histology.type allows",
        lesion + "histology.margin: " + reason + ", clear or involved or not assessable"};
  };
  const auto row = GENERATE_COPY(values<Row>({
      {"nothing", a_lesion(), {}},
      {"a size not stated",
       a_lesion().without("size_mm"),
       {lesion + "size_mm: not stated, 1 to 3000 tenths"}},
      {"a size within bounds",
       a_lesion().with_fact("size_mm", {{"from", 8}, {"to", 12.5}}),
       {lesion + "size_mm: bounded, 80 to 125 tenths"}},
      {"a number within bounds",
       a_lesion().with_fact("number", {{"from", 2}, {"to", 4}}),
       {lesion + "number: bounded, 2 or 3 or 4"}},
      {"a term not stated",
       a_lesion().without("removal"),
       {lesion + "removal: not stated, en bloc or piecemeal or biopsy only or not removed"}},
      {"some terms",
       a_lesion().with_fact("site", {"rectum", "sigmoid colon"}),
       {lesion + "site: bounded, rectum or sigmoid colon"}},
      {"retrieval not stated",
       a_lesion().without("retrieved"),
       {lesion + "retrieved: not stated, true or false"}},
      {"histology awaited", a_lesion().awaiting_histology(), unknown_histology("awaited")},
      {"histology lost", a_lesion().lost(), unknown_histology("lost")},
      {"nothing removed", a_lesion().left_in_place(), unknown_histology("lost")},
      {"a histology that says nothing", a_lesion().with_fact("histology", nlohmann::json::object()),
       unknown_histology("not stated")},
      {"the dysplasia of an adenoma",
       a_lesion().with_fact("histology", {{"type", "villous adenoma"}, {"margin", "clear"}}),
       {lesion + "histology.dysplasia: not stated, low grade or high grade"}},
      {"the dysplasia of a serrated lesion",
       a_lesion().with_fact("histology", {{"type", "sessile serrated lesion"}, {"margin", "clear"}}),
       {lesion + "histology.dysplasia: not stated, none or low grade or high grade"}},
      {"a hyperplastic polyp has none",
       a_lesion().with_fact("histology", {{"type", "hyperplastic polyp"}, {"margin", "clear"}}),
       {}},
      {"type and dysplasia of two adenomas",
       a_lesion().with_fact("histology",
                            {{"type", {"tubular adenoma", "villous adenoma"}}, {"margin", "clear"}}),
       {lesion + "histology.type: bounded, tubular adenoma or villous adenoma",
        lesion + "histology.dysplasia: not stated, low grade or high grade, as " + lesion +
            "histology.type allows"}},
      {"two types without dysplasia",
       a_lesion().with_fact("histology", {{"type", {"hamartoma", "normal mucosa"}}, {"margin", "clear"}}),
       {lesion + "histology.type: bounded, hamartoma or normal mucosa"}},
      {"dysplasia that the report bounds stays as reported",
       a_lesion().with_fact(
           "histology",
           {{"dysplasia", {"none", "high grade"}}, {"type", "tubular adenoma"}, {"margin", "clear"}}),
       {lesion + "histology.dysplasia: bounded, none or high grade"}},
      {"the pathologist's size within bounds",
       a_lesion()
           .found_to_be("tubular adenoma")
           .with_fact("histology", {{"type", "tubular adenoma"},
                                    {"dysplasia", "low grade"},
                                    {"margin", "clear"},
                                    {"size_mm", {{"from", 9}, {"to", 11}}}}),
       {lesion + "histology.size_mm: bounded, 90 to 110 tenths"}},
  }));
  INFO(row.because);
  const auto record = bound(a_record().with(row.lesion).text());
  CHECK(exam_facts(*record) == row.facts);
}

TEST_CASE("what is in doubt about the examination is open too", "[record]") {
  struct Row {
    const char* because;
    std::string record;
    std::vector<std::string> facts;
  };
  const auto row = GENERATE(values<Row>({
      {"the preparation is not stated",
       a_record().without("/exam/preparation").text(),
       {"exam.preparation.graded: not stated, excellent or good or fair or poor or adequate or inadequate"}},
      {"one segment is not scored",
       a_record().without("/exam/preparation/boston/left").text(),
       {"exam.preparation.boston.left: not stated, 0 or 1 or 2 or 3"}},
      {"a grade that may be one or the other",
       a_record().with_fact("/exam/preparation", {{"graded", {"good", "fair"}}}).text(),
       {"exam.preparation.graded: bounded, good or fair"}},
      {"the procedure is not stated",
       a_record().without("/exam/procedure").text(),
       {"exam.procedure: not stated, colonoscopy or flexible sigmoidoscopy or CT colonography"}},
      {"what was found is not stated",
       a_record().without("/exam/lesions").text(),
       {"exam.lesions: not stated"}},
  }));
  INFO(row.because);
  CHECK(exam_facts(*bound(row.record)) == row.facts);
}

TEST_CASE("background that is left out is assumed, and said to be", "[record]") {
  const auto record = bound(R"({"exam":{"date":"2026-03-10","lesions":[]}})");
  std::vector<std::string> lines;
  for (const OpenFact& fact : record->bound.facts) {
    if (!fact.path.starts_with("exam")) lines.push_back(line_of(fact, record->bound));
  }
  CHECK(lines == std::vector<std::string>{
                     "patient.birth_date: not stated",
                     "patient.sex: assumed unknown",
                     "patient.conditions: assumed list of 0",
                     "patient.relatives: assumed list of 0",
                     "patient.family_history: assumed none",
                     "patient.life_expectancy_under_10_years: assumed false",
                     "previous: assumed list of 0",
                     "setting.nation: assumed null",
                     "setting.screening_from_age: assumed null",
                     "setting.organised_screening: assumed null",
                     "setting.adenoma_detection_adequate: assumed null",
                 });
}

TEST_CASE("the doubts of earlier examinations are found where they stand", "[record]") {
  const auto record =
      bound(a_record()
                .after(a_record().on("2020-01-01"))
                .after(a_record().on("2023-01-01").with(a_lesion()).with(a_lesion().without("size_mm")))
                .text());
  const Value sizes = at(at(record->bound.previous.list()[1], "lesions").list()[1], "size_mm");
  CHECK(shown(sizes, record->bound) == "?previous[1].lesions[1].size_mm");
}

TEST_CASE("each open value carries the number of its fact", "[record]") {
  const auto record =
      bound(a_record().with(a_lesion().awaiting_histology()).without("/exam/procedure").text());
  CHECK(shown(at(record->bound.exam, "procedure"), record->bound) == "?exam.procedure");
  const Value histology = at(at(record->bound.exam, "lesions").list()[0], "histology");
  CHECK(shown(at(histology, "type"), record->bound) == "?exam.lesions[0].histology.type");
  CHECK(shown(at(histology, "dysplasia"), record->bound) == "?exam.lesions[0].histology.dysplasia");
  CHECK(shown(at(histology, "margin"), record->bound) == "?exam.lesions[0].histology.margin");
}

TEST_CASE("a binding that is used again keeps nothing of the record before", "[record]") {
  const auto record =
      bound(a_record().with(a_lesion().awaiting_histology().without("size_mm")).without("/previous").text());
  const auto expected = bound(a_record().with(a_lesion().without("paris")).text());
  record->arena.clear();
  bind(expected->record, record->arena, record->bound);
  REQUIRE(record->bound.facts.size() == expected->bound.facts.size());
  for (std::size_t i = 0; i < expected->bound.facts.size(); ++i) {
    CHECK(line_of(record->bound.facts[i], record->bound) ==
          line_of(expected->bound.facts[i], expected->bound));
  }
}

TEST_CASE("every lesion type says what dysplasia goes with it", "[record]") {
  for (const std::string_view type : vocabulary<LesionType>) {
    INFO(type);
    const auto options = dysplasia_options(type);
    REQUIRE_FALSE(options.empty());
    const bool may_have_none = options.front().string() == "none";
    const bool is_adenoma = type.ends_with("adenoma") && type != "traditional serrated adenoma";
    CHECK(may_have_none == (!is_adenoma && type != "adenocarcinoma"));
  }
  CHECK(dysplasia_options("polyp").empty());
}

}  // namespace
}  // namespace engine
