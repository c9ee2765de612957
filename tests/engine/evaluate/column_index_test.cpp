// A column that is looked up accepts what a column that is tested cell by cell accepts: the cells below, alone in a
// table of few rules and together in one of many, for values on, beside and between their constants.

#include <catch2/catch.hpp>

#include "engine/model.h"
#include "support/dmn_text.h"

using namespace engine;
using testing::SmallTable;

namespace {

std::string matches(const std::vector<std::string>& cells, const std::string& x) {
  SmallTable table;
  table.policy = "COLLECT";
  for (std::size_t i = 0; i < cells.size(); ++i) table.rows.emplace_back(cells[i], std::to_string(i));
  const auto model = Model::load(testing::dmn(testing::input("x", "Any") +
                                              testing::decision("d", testing::needs_input("x"), table.text())),
                                 "test.dmn");
  REQUIRE(model);
  Evaluation run(*model);
  const auto value = evaluate(x, {}, run.arena());
  REQUIRE(value);
  run.set_input(*(*model)->find("x", ElementView::Kind::input), value->value);
  std::string result = literal_of(run.decide(*(*model)->find("d", ElementView::Kind::decision)));
  for (const Diagnostic& d : run.diagnostics()) result += " " + std::string(d.code);
  return result;
}

/// The same with one table for each cell, and the results put together.
std::string matches_one_by_one(const std::vector<std::string>& cells, const std::string& x) {
  std::string list, codes;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string one = matches({cells[i]}, x);
    if (one.rfind("[0]", 0) == 0) list += (list.empty() ? "" : ", ") + std::to_string(i);
    codes += one.substr(one.find(']') + 1);
  }
  return "[" + list + "]" + codes;
}

}  // namespace

TEST_CASE("looking up a column of a table gives what testing its cells gives", "[dmn]") {
  struct Row {
    const char* because;
    std::vector<std::string> cells;
    std::vector<const char*> values;
  };
  const auto row = GENERATE(values<Row>({
      {"numbers",
       {">= 10", "< 10", "[3..10]", "(3..10)", "5", "not(5)", "-", "1, 2, 3", "> 9.5", "not(< 3, > 10)", "!= 7"},
       {"2", "3", "3.0", "5", "9.5", "9.51", "10", "10.00", "11", "-4", "null", "\"a\"", "1E+3"}},
      {"strings",
       {"\"a\"", "\"b\", \"c\"", "not(\"a\")", "-", "not(\"b\", \"c\")", "\"d\"", "\"\"", "\"ab\""},
       {"\"a\"", "\"b\"", "\"ab\"", "\"d\\u0001\"", "\"\"", "\"zz\"", "null", "5"}},
      {"booleans", {"true", "false", "not(true)", "-", "true, false", "not(false)", "true"}, {"true", "false", "null"}},
      {"numbers that 34 digits can hardly part",
       {"1.000000000000000000000000000000001", "1.000000000000000000000000000000002", ">= 1", "< 1", "2", "3", "4"},
       {"1.000000000000000000000000000000001", "1.000000000000000000000000000000002", "1", "2"}},
      {"types that are mixed are not looked up", {"1", "\"a\"", "2", "\"b\"", "3", "-", "true"}, {"1", "\"a\"", "true"}},
      {"expressions are not looked up",
       {"? > 5", "x", "1 + 1", "-", "[1..1 + 3]", "> 1 + 1", "not(x)"},
       {"1", "2", "6", "null"}},
  }));
  for (const char* value : row.values) {
    INFO(row.because << ", x = " << value);
    CHECK(matches(row.cells, value) == matches_one_by_one(row.cells, value));
  }
}

TEST_CASE("a table of more than 64 rules is looked up as well", "[dmn]") {
  std::vector<std::string> cells;
  for (int i = 0; i < 200; ++i) cells.push_back(std::to_string(i));
  CHECK(matches(cells, "0") == "[0]");
  CHECK(matches(cells, "64") == "[64]");
  CHECK(matches(cells, "199") == "[199]");
  CHECK(matches(cells, "200") == "[]");
}
