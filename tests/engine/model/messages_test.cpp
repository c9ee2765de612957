// What is said of a faulty DMN file and of a table that cannot answer, word for word. Codes: docs/feel.md section 17.

#include <catch2/catch.hpp>

#include "engine/model.h"
#include "support/dmn_text.h"

using namespace engine;
using namespace testing;

namespace {

std::string said_at_load(const std::string& text, const Model::Importer& importer = {}) {
  const auto model = Model::load(text, "test.dmn", Profile::clinical, importer);
  std::string said;
  for (const Error& error : model ? Errors{} : model.errors()) {
    said += (said.empty() ? "" : " | ") + error.code + ": " + error.message;
  }
  return said;
}

std::string said_by(const std::string& logic, const std::string& x = "1", const std::string& more = "") {
  const auto model =
      Model::load(dmn(more + input("x", "Any") + decision("d", needs_input("x"), logic)), "test.dmn", Profile::standard);
  if (!model) return "at load: " + model.errors().front().message;
  Evaluation run(*model);
  const auto value = evaluate(x, {}, run.arena());
  REQUIRE(value);
  if (!x.empty()) run.set_input(*(*model)->find("x", ElementView::Kind::input), value->value);
  (void)run.decide(*(*model)->find("d", ElementView::Kind::decision));
  std::string said;
  for (const Diagnostic& d : run.diagnostics()) said += (said.empty() ? "" : " | ") + std::string(d.code) + ": " + d.message;
  return said;
}

std::string import(const std::string& name, const std::string& attributes = "") {
  return "<import name=\"" + name + "\" namespace=\"urn:" + name +
         "\" importType=\"https://www.omg.org/spec/DMN/20230324/MODEL/\"" + attributes + "/>";
}

SmallTable table_of(const std::string& policy, std::vector<std::pair<std::string, std::string>> rows) {
  SmallTable table;
  table.policy = policy;
  table.rows = std::move(rows);
  return table;
}

}  // namespace

TEST_CASE("what is said of a faulty file", "[dmn]") {
  const std::string type_a = "<itemDefinition name=\"tA\"><typeRef>tB</typeRef></itemDefinition>";
  const std::string type_b = "<itemDefinition name=\"tB\"><typeRef>tA</typeRef></itemDefinition>";
  const std::string number = "<itemDefinition name=\"tA\"><typeRef>number</typeRef></itemDefinition>";
  struct Row {
    std::string text;
    const char* said;
  };
  const auto row = GENERATE_COPY(values<Row>({
      {"{}", "broken_xml: the XML is broken: No document element found"},
      {"<html/>", "not_dmn: this is no DMN file: the root element is `html` in the namespace ``"},
      {"<!DOCTYPE x [<!ENTITY a \"b\">]>" + dmn(""), "dtd: the file has a document type declaration"},
      {dmn(decision("d", "", literal("1 +"))), "syntax: expected an expression, found the end of the text"},
      {dmn(decision("d", "", literal("mising + 1"))), "unknown_name: nothing here is called `mising`"},
      {dmn(input("x", "number") + decision("d", needs_input("x"), literal("x = \"1\""))), "type_clash: a number is compared with a string: the answer is always null"},
      {dmn(input("x", "nmber") + decision("d", "", literal("1"))), "unknown_type: no type is called `nmber`"},
      {dmn(number + number), "duplicate_type: the item definition `tA` stands twice"},
      {dmn(type_a + type_b), "type_cycle: the item definition `tA` contains itself"},
      {dmn(decision("d", needs_decision("e"), literal("1"))), "missing_requirement: `#e` is required, but nothing has that id"},
      {dmn(decision("a", needs_decision("b"), literal("1")) + decision("b", needs_decision("a"), literal("1"))), "cycle: `a` requires itself, directly or through others"},
      {dmn(decision("a", "", literal("1")) + decision("a", "", literal("2"))), "duplicate_name: two elements are called `a`"},
      {dmn(import("nowhere")), "missing_import: the imported model `urn:nowhere` cannot be found"},
      {dmn(import("back")), "import_cycle: the import of `urn:test` comes back to the file that it starts from"},
      {dmn(import("back", " digest=\"sha256:00\"")), "import_changed: the import of `urn:back` states the digest `sha256:00`, but the file has `sha256:f980121d805e50106ea854c564862fb5c633ac942d1c406d506469fb82dfd218`"},
      {dmn(decision("d", "", "<literalExpression expressionLanguage=\"urn:x\"><text>1</text></literalExpression>")), "language: the expression language `urn:x` is not FEEL"},
      {dmn(input("x", "Any") + decision("d", needs_input("x"), "<decisionTable><input><inputExpression><text>x</text></inputExpression></input></decisionTable>")), "no_output: the table in `d` has no output"},
      {dmn(input("x", "Any") + decision("d", needs_input("x"), "<decisionTable><input><inputExpression><text>x</text></inputExpression></input><output/><rule><inputEntry><text>1</text></inputEntry></rule></decisionTable>")), "ragged_table: rule 1 of the table in `d` has 1 inputs and 0 outputs, the table has 1 and 1"},
      {dmn(input("x", "Any") + decision("d", needs_input("x"), "<decisionTable hitPolicy=\"COLLECT\" aggregation=\"SUM\"><input><inputExpression><text>x</text></inputExpression></input><output name=\"a\"/><output name=\"b\"/></decisionTable>")), "aggregation: the table in `d` aggregates, which only one output can do"},
  }));
  const Model::Importer importer = [](const Import& wanted) -> std::optional<std::string> {
    if (wanted.namespace_name == "urn:back") {
      return "<definitions xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" name=\"back\" namespace=\"urn:back\">" +
             std::string("<import name=\"t\" namespace=\"urn:test\" importType=\"https://www.omg.org/spec/DMN/20230324/MODEL/\"/>") +
             "</definitions>";
    }
    return std::nullopt;
  };
  INFO(row.text);
  CHECK(said_at_load(row.text, importer) == row.said);
}

TEST_CASE("what is said of a table that cannot answer", "[dmn]") {
  const auto with_values = [](SmallTable table, const char* inputs, const char* outputs) {
    table.input_values = inputs;
    table.output_values = outputs;
    return table;
  };
  const auto collecting = [](SmallTable table, const char* aggregation) {
    table.aggregation = aggregation;
    return table;
  };
  struct Row {
    const char* because;
    SmallTable table;
    const char* x;
    const char* said;
  };
  const auto row = GENERATE_COPY(values<Row>({
      {"two rules of a UNIQUE table", table_of("UNIQUE", {{">= 1", "1"}, {"1", "2"}}), "1", "hit_policy_violated: rules 1, 2 match together, but UNIQUE allows one"},
      {"other outputs under ANY", table_of("ANY", {{">= 1", "1"}, {"1", "2"}}), "1", "hit_policy_violated: rules 1, 2 match together, but ANY needs the same output from all"},
      {"no rule", table_of("UNIQUE", {{"1", "1"}}), "2", "no_rule_matched: no rule of the table matches"},
      {"an input outside its values", with_values(table_of("UNIQUE", {{"1", "1"}}), "1, 2", ""), "3", "input_outside_values: the input value `3` is not among the allowed input values"},
      {"an output outside its values", with_values(table_of("UNIQUE", {{"1", "3"}}), "", "1, 2"), "1", "output_outside_values: the output `3` is not among the output values"},
      {"nothing ranks the outputs", table_of("OUTPUT ORDER", {{"1", "3"}, {">= 1", "4"}}), "1", "no_output_values: the hit policy ranks outputs, but no output values are listed"},
      {"a sum of texts", collecting(table_of("COLLECT", {{"1", "\"a\""}, {">= 1", "1"}}), "SUM"), "1", "bad_aggregation: the outputs cannot be taken together: `\"a\"`"},
      {"no value for the input", table_of("UNIQUE", {{"1", "1"}}), "", "missing_input: there is no value for the input `x` | no_rule_matched: no rule of the table matches"},
      {"an output that the ranking does not list",
       with_values(table_of("PRIORITY", {{"1", "3"}, {">= 1", "1"}}), "", "1, 2"), "1",
       "output_outside_values: the output `3` is not among the output values | "
       "output_unranked: the output `null` is not among the output values"},
  }));
  INFO(row.because);
  CHECK(said_by(row.table.text(), row.x) == row.said);
}

TEST_CASE("a decision without logic says so", "[dmn]") {
  CHECK(said_by("") == "no_logic: there is no logic here");
}
