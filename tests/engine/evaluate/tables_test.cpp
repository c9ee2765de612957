// Decision tables under every hit policy. Source: DMN 1.5 chapter 8; rows marked `ours` are readings of docs/feel.md
// section 13, where the standard is silent.

#include <catch2/catch.hpp>

#include "engine/model.h"
#include "support/dmn_text.h"

using namespace engine;
using testing::SmallTable;

namespace {

// The value of the table for x, and the codes of what was noted, as `value | codes`.
std::string outcome(const SmallTable& table, const char* x, Profile profile = Profile::standard) {
  const std::string text = testing::dmn(testing::input("x", "Any") +
                                        testing::decision("d", testing::needs_input("x"), table.text()));
  const auto model = Model::load(text, "test.dmn", profile);
  if (!model) return text_of(model.errors().front());
  Evaluation run(*model);
  const auto value = evaluate(x, {}, run.arena());
  REQUIRE(value);
  run.set_input(*(*model)->find("x", ElementView::Kind::input), value->value);
  std::string result = literal_of(run.decide(*(*model)->find("d", ElementView::Kind::decision)));
  for (const Diagnostic& d : run.diagnostics()) result += " | " + std::string(d.code);
  return result;
}

struct Row {
  const char* because;
  SmallTable table;
  const char* x;
  const char* outcome;
};

SmallTable two(const char* policy, const char* a, const char* b, const char* output_values = "") {
  SmallTable table;
  table.policy = policy;
  table.output_values = output_values;
  table.rows = {{">= 1", a}, {"<= 1", b}};
  return table;
}

SmallTable collecting(const char* aggregation, const char* a, const char* b) {
  SmallTable table = two("COLLECT", a, b);
  table.aggregation = aggregation;
  return table;
}

SmallTable with_default(SmallTable table, const char* otherwise) {
  table.otherwise = otherwise;
  return table;
}

}  // namespace

TEST_CASE("a table has the result of its hit policy", "[feel][table]") {
  const auto row = GENERATE(values<Row>({
      {"UNIQUE with one match", two("UNIQUE", "\"a\"", "\"b\""), "2", "\"a\""},
      {"UNIQUE with two matches", two("UNIQUE", "\"a\"", "\"b\""), "1", "null | hit_policy_violated"},
      {"UNIQUE with two equal outputs", two("UNIQUE", "\"a\"", "\"a\""), "1", "null | hit_policy_violated"},
      {"ANY with equal outputs", two("ANY", "\"a\"", "\"a\""), "1", "\"a\""},
      {"ANY with different outputs", two("ANY", "\"a\"", "\"b\""), "1", "null | hit_policy_violated"},
      {"FIRST", two("FIRST", "\"a\"", "\"b\""), "1", "\"a\""},
      {"PRIORITY by the order of the output values", two("PRIORITY", "\"a\"", "\"b\"", "\"b\", \"a\""), "1", "\"b\""},
      {"PRIORITY without output values", two("PRIORITY", "\"a\"", "\"b\""), "1", "\"a\" | no_output_values"},
      {"RULE ORDER", two("RULE ORDER", "\"a\"", "\"b\""), "1", "[\"a\", \"b\"]"},
      {"OUTPUT ORDER", two("OUTPUT ORDER", "\"a\"", "\"b\"", "\"b\", \"a\""), "1", "[\"b\", \"a\"]"},
      {"OUTPUT ORDER keeps rule order among equals", two("OUTPUT ORDER", "\"a\"", "\"a\"", "\"b\", \"a\""), "1",
       "[\"a\", \"a\"]"},
      {"COLLECT", two("COLLECT", "1", "2"), "1", "[1, 2]"},
      {"COLLECT SUM counts equal outputs twice", collecting("SUM", "2", "2"), "1", "4"},
      {"COLLECT MIN", collecting("MIN", "3", "2"), "1", "2"},
      {"COLLECT MAX", collecting("MAX", "3", "2"), "1", "3"},
      {"COLLECT COUNT", collecting("COUNT", "3", "2"), "1", "2"},
      {"COLLECT SUM of a string", collecting("SUM", "3", "\"x\""), "1", "null | bad_aggregation"},
      {"COLLECT MIN with a null", collecting("MIN", "3", "null"), "1", "null | bad_aggregation"},
  }));
  INFO(row.because);
  CHECK(outcome(row.table, row.x) == row.outcome);
}

TEST_CASE("a table without a match has the result of its hit policy", "[feel][table]") {
  SmallTable none;
  none.rows = {{"> 100", "1"}};
  const auto as = [&](const char* policy, const char* aggregation = "") {
    SmallTable table = none;
    table.policy = policy;
    table.aggregation = aggregation;
    return table;
  };
  const auto row = GENERATE_COPY(values<Row>({
      {"UNIQUE", as("UNIQUE"), "1", "null | no_rule_matched"},
      {"ANY", as("ANY"), "1", "null | no_rule_matched"},
      {"FIRST", as("FIRST"), "1", "null | no_rule_matched"},
      {"PRIORITY", as("PRIORITY"), "1", "null | no_rule_matched"},
      {"RULE ORDER (ours)", as("RULE ORDER"), "1", "[]"},
      {"OUTPUT ORDER (ours)", as("OUTPUT ORDER"), "1", "[]"},
      {"COLLECT (ours)", as("COLLECT"), "1", "[]"},
      {"COUNT (ours)", as("COLLECT", "COUNT"), "1", "0"},
      {"SUM (ours)", as("COLLECT", "SUM"), "1", "null | no_rule_matched"},
      {"a default for a single hit", with_default(as("UNIQUE"), "\"none\""), "1", "\"none\""},
      {"a default in a list (ours)", with_default(as("COLLECT"), "0"), "1", "[0]"},
      {"a default for MAX", with_default(as("COLLECT", "MAX"), "7"), "1", "7"},
  }));
  INFO(row.because);
  CHECK(outcome(row.table, row.x) == row.outcome);
}

TEST_CASE("null and impossible values do not slip through a table", "[feel][table]") {
  SmallTable limits = two("UNIQUE", "\"a\"", "\"b\"");
  limits.rows = {{">= 1", "\"a\""}, {"not(>= 1)", "\"b\""}};
  SmallTable with_null_row = limits;
  with_null_row.rows.push_back({"null", "\"missing\""});
  SmallTable values = two("UNIQUE", "\"a\"", "\"b\"");
  values.input_values = "[0..10]";
  SmallTable outputs = two("FIRST", "\"z\"", "\"b\"", "\"a\", \"b\"");
  SmallTable broken = two("FIRST", "\"a\"", "\"b\"");
  broken.rows = {{"> \"text\"", "\"a\""}, {"5", "\"b\""}};
  const auto row = GENERATE_COPY(Catch::Generators::values<Row>({
      {"null matches neither a test nor its negation", limits, "null",
       "null | type_clash | type_clash | no_rule_matched"},
      {"a row for null", with_null_row, "null", "\"missing\" | type_clash | type_clash"},
      {"an input outside its values", values, "11", "null | input_outside_values"},
      {"an output outside its values", outputs, "2", "null | output_outside_values"},
      {"an error in one cell leaves the others", broken, "5", "\"b\" | type_clash"},
  }));
  INFO(row.because);
  CHECK(outcome(row.table, row.x) == row.outcome);
}

TEST_CASE("the clinical profile gives no answer where the standard would go on", "[feel][table]") {
  SmallTable broken = two("FIRST", "\"a\"", "\"b\"");
  broken.rows = {{"> \"text\"", "\"a\""}, {"5", "\"b\""}};
  CHECK(outcome(broken, "5", Profile::standard) == "\"b\" | type_clash");
  CHECK(outcome(broken, "5", Profile::clinical) == "null | type_clash");
  SmallTable none;
  none.rows = {{"> 100", "1"}};
  CHECK(outcome(none, "1", Profile::clinical) == "null | no_rule_matched");
}

TEST_CASE("a gap in a clinical table is not answered by what reads the null", "[feel][table]") {
  SmallTable gap;
  gap.rows = {{"> 100", "\"high\""}};
  const std::string text =
      testing::dmn(testing::input("x", "number") + testing::decision("Class", testing::needs_input("x"), gap.text()) +
                   testing::decision("d", testing::needs_decision("Class"),
                                     testing::literal("if Class = \"high\" then \"three years\" else \"none\"")));
  for (const auto& [profile, answer] : {std::pair{Profile::standard, "\"none\""}, {Profile::clinical, "null"}}) {
    const auto model = Model::load(text, "test.dmn", profile);
    REQUIRE(model);
    Evaluation run(*model);
    run.set_input(*(*model)->find("x", ElementView::Kind::input), Value::number(1));
    CHECK(literal_of(run.decide(*(*model)->find("d", ElementView::Kind::decision))) == answer);
    CHECK(run.has_error() == (profile == Profile::clinical));
  }
}
