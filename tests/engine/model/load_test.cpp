// What is wrong with a DMN file is said at load, all of it in one run.

#include <catch2/catch.hpp>

#include "engine/model.h"
#include "support/dmn_text.h"

using namespace engine;
using namespace testing;

namespace {

std::string codes(const std::string& text, Profile profile = Profile::clinical) {
  const auto model = Model::load(text, "test.dmn", profile);
  if (model) return "loads";
  std::string all;
  for (const Error& error : model.errors()) all += (all.empty() ? "" : " ") + error.code;
  return all;
}

}  // namespace

TEST_CASE("a faulty DMN file is refused", "[dmn]") {
  struct Row {
    const char* because;
    std::string text;
    const char* codes;
  };
  const std::string deep = [] {
    std::string t;
    for (int i = 0; i < 300; ++i) t += "<list>";
    for (int i = 0; i < 300; ++i) t += "</list>";
    return dmn("<decision name=\"d\" id=\"d\">" + t + "</decision>");
  }();
  const auto row = GENERATE_COPY(values<Row>({
      {"nothing wrong", dmn(decision("d", "", literal("1"))), "loads"},
      {"no XML", "{}", "broken_xml"},
      {"no DMN", "<html/>", "not_dmn"},
      {"DMN of no known version", "<definitions xmlns=\"urn:other\"/>", "not_dmn"},
      {"a document type", "<!DOCTYPE x [<!ENTITY a \"b\">]>" + dmn(""), "dtd"},
      {"nesting without end", deep, "too_deep"},
      {"an unknown name", dmn(decision("d", "", literal("mising + 1"))), "unknown_name"},
      {"a name that is not required", dmn(input("x", "number") + decision("d", "", literal("x"))), "unknown_name"},
      {"types that never compare", dmn(input("x", "number") + decision("d", needs_input("x"), literal("x = \"1\""))),
       "type_clash"},
      {"an unknown type", dmn(input("x", "nmber") + decision("d", "", literal("1"))), "unknown_type"},
      {"a requirement of nothing", dmn(decision("d", needs_decision("e"), literal("1"))), "missing_requirement"},
      {"a cycle", dmn(decision("a", needs_decision("b"), literal("1")) + decision("b", needs_decision("a"), literal("1"))),
       "cycle"},
      {"a name twice", dmn(decision("a", "", literal("1")) + decision("a", "", literal("2"))), "duplicate_name"},
      {"two faults in one run", dmn(decision("a", "", literal("1 +")) + decision("b", "", literal("nowhere"))),
       "syntax unknown_name"},
      {"an import that is not there",
       dmn("<import namespace=\"urn:o\" name=\"o\" importType=\"https://www.omg.org/spec/DMN/20230324/MODEL/\"/>"),
       "missing_import"},
      {"another language",
       dmn(decision("d", "", "<literalExpression expressionLanguage=\"urn:x\"><text>1</text></literalExpression>")),
       "language"},
  }));
  INFO(row.because);
  CHECK(codes(row.text) == row.codes);
}

TEST_CASE("a fault in a DMN file is shown in its line", "[dmn]") {
  const std::string text = dmn(input("patient", "number") +
                               decision("Age", needs_input("patient"), literal("patint + 1")));
  const auto model = Model::load(text, "test.dmn", Profile::clinical);
  REQUIRE_FALSE(model);
  const std::string shown = text_of(model.errors().front());
  CHECK(shown.find("test.dmn:3:") == 0);
  CHECK(shown.find("error: nothing here is called `patint`") != std::string::npos);
  CHECK(shown.find("help: did you mean `patient`?") != std::string::npos);
}

TEST_CASE("a key that a type does not have is found at load", "[dmn]") {
  const std::string text =
      dmn("<itemDefinition name=\"tLesion\"><itemComponent name=\"size_mm\"><typeRef>number</typeRef></itemComponent>"
          "</itemDefinition>\n" +
          input("lesion", "tLesion") + decision("Large", needs_input("lesion"), literal("lesion.size >= 10")));
  CHECK(codes(text) == "unknown_key");
  const auto model = Model::load(text, "test.dmn", Profile::clinical);
  REQUIRE_FALSE(model);
  CHECK(model.errors().front().help == "did you mean `size_mm`? there are `size_mm`");
}

TEST_CASE("values are held to their declared types", "[dmn]") {
  const std::string text =
      dmn("<itemDefinition name=\"tGrade\"><typeRef>string</typeRef><allowedValues><text>\"low\", \"high\"</text>"
          "</allowedValues></itemDefinition>\n" +
          input("grade", "tGrade") + decision("d", needs_input("grade"), literal("grade")));
  const auto model = Model::load(text, "test.dmn", Profile::standard);
  REQUIRE(model);
  const auto value_for = [&](const char* grade) {
    Evaluation run(*model);
    run.set_input(*(*model)->find("grade", ElementView::Kind::input), Value::string(grade));
    return literal_of(run.decide(*(*model)->find("d", ElementView::Kind::decision)));
  };
  CHECK(value_for("low") == "\"low\"");
  CHECK(value_for("middling") == "null");
}
