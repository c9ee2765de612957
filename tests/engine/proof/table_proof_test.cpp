// What is shown of a table against the slow obvious way: every point of a grid that has values on, below, between and
// above all the constants.

#include "engine/table_proof.h"

#include <catch2/catch.hpp>
#include <random>

#include "support/dmn_text.h"

using namespace engine;

namespace {

struct Cell {
  std::string text;
  bool (*accepts)(double);
};

const std::vector<Cell>& cells() {
  static const std::vector<Cell> all = {{"-", [](double) { return true; }},
                                        {"< 2", [](double x) { return x < 2; }},
                                        {">= 2", [](double x) { return x >= 2; }},
                                        {"[2..4]", [](double x) { return x >= 2 && x <= 4; }},
                                        {"(2..4)", [](double x) { return x > 2 && x < 4; }},
                                        {"3", [](double x) { return x == 3; }},
                                        {"not(3)", [](double x) { return x != 3; }},
                                        {"1, 3", [](double x) { return x == 1 || x == 3; }},
                                        {"> 4", [](double x) { return x > 4; }}};
  return all;
}

std::string table(const std::string& policy, const std::vector<std::pair<const Cell*, const Cell*>>& rules) {
  std::string text = "<decisionTable hitPolicy=\"" + policy +
                     "\"><input><inputExpression><text>x</text></inputExpression></input>"
                     "<input><inputExpression><text>y</text></inputExpression></input><output name=\"o\"/>";
  for (const auto& [a, b] : rules) {
    text += "<rule><inputEntry><text>" + testing::escaped(a->text) + "</text></inputEntry><inputEntry><text>" +
            testing::escaped(b->text) + "</text></inputEntry><outputEntry><text>1</text></outputEntry></rule>";
  }
  return testing::dmn(testing::input("x", "number") + testing::input("y", "number") +
                      testing::decision("d", testing::needs_input("x") + testing::needs_input("y"), text + "</decisionTable>"));
}

std::size_t count(const TableProof& proof, TableFinding::Kind kind) {
  return static_cast<std::size_t>(std::count_if(proof.findings.begin(), proof.findings.end(),
                                                [&](const TableFinding& finding) { return finding.kind == kind; }));
}

TableProof proof_of(const std::string& text) {
  const auto model = Model::load(text, "test.dmn");
  REQUIRE(model);
  const auto proofs = prove_tables(**model);
  REQUIRE(proofs.size() == 1);
  return proofs.front();
}

}  // namespace

TEST_CASE("gaps, overlaps and rules that never fire are found where a grid finds them, and nowhere else", "[proof][property]") {
  std::mt19937 random(7);
  std::size_t gaps = 0, overlaps = 0, dead = 0, masked = 0, sound = 0;
  for (int round = 0; round < 3000; ++round) {
    const bool first = round % 3 == 0;
    std::vector<std::pair<const Cell*, const Cell*>> rules;
    const std::size_t size = 1 + random() % 5;
    for (std::size_t i = 0; i < size; ++i) {
      const Cell* a = &cells()[random() % cells().size()];
      rules.emplace_back(a, &cells()[random() % cells().size()]);
    }
    const std::string text = table(first ? "FIRST" : "UNIQUE", rules);
    const TableProof proof = proof_of(text);
    INFO(text);
    REQUIRE(proof.stopped_by.empty());

    bool gap = false, overlap = false;
    std::vector<bool> fires(size), comes_first(size);
    for (double x = -0.5; x <= 6; x += 0.5) {
      for (double y = -0.5; y <= 6; y += 0.5) {
        std::size_t matches = 0;
        for (std::size_t i = 0; i < size; ++i) {
          if (!rules[i].first->accepts(x) || !rules[i].second->accepts(y)) continue;
          if (matches++ == 0) comes_first[i] = true;
          fires[i] = true;
        }
        gap = gap || matches == 0;
        overlap = overlap || matches > 1;
      }
    }
    std::size_t never = 0, behind = 0;
    for (std::size_t i = 0; i < size; ++i) {
      if (!fires[i]) ++never;
      if (fires[i] && !comes_first[i]) ++behind;
    }
    using Kind = TableFinding::Kind;
    CHECK((count(proof, Kind::gap) > 0) == gap);
    CHECK((count(proof, Kind::overlap) > 0) == (overlap && !first));
    CHECK(count(proof, Kind::dead) == never);
    CHECK(count(proof, Kind::masked) == (first ? behind : 0));
    gaps += gap;
    overlaps += overlap && !first;
    dead += never > 0;
    masked += first && behind > 0;
    sound += proof.findings.empty();
  }
  CHECK((gaps > 100 && overlaps > 100 && masked > 100 && sound > 20));
  CHECK(dead == 0);  // none of these cells accepts nothing
}

TEST_CASE("what a table is shown to be", "[proof]") {
  struct Row {
    const char* because;
    std::string column;      ///< Attributes and allowed values of the input.
    std::string policy;
    std::vector<const char*> cells;
    const char* findings;
  };
  const auto row = GENERATE(values<Row>({
      {"terms that are all named", "\"a\", \"b\"", "UNIQUE", {"\"a\"", "\"b\""}, ""},
      {"a term that is forgotten", "\"a\", \"b\", \"c\"", "UNIQUE", {"\"a\"", "\"b\""}, "gap `x` is \"c\""},
      {"without allowed values another text may come", "", "UNIQUE", {"\"a\"", "\"b\""}, "gap `x` is another text"},
      {"a cell outside the allowed values", "\"a\", \"b\"", "UNIQUE", {"\"a\"", "\"b\"", "\"z\""}, "dead rule"},
      {"dates", "", "UNIQUE", {"< @\"2025-01-01\"", ">= @\"2025-01-01\""}, ""},
      {"a day that is forgotten", "", "UNIQUE", {"< @\"2025-01-01\"", "> @\"2025-01-01\""}, "gap `x` is 2025-01-01"},
      {"a table that collects has no gap and no overlap", "", "COLLECT", {"\"a\"", "\"a\""}, ""},
      {"a cell that is no constant", "", "UNIQUE", {"x", "not(x)"}, "stopped by x"},
      {"constants of two kinds", "", "UNIQUE", {"1", "\"a\""}, "stopped by x"},
  }));
  INFO(row.because);
  std::string text = "<decisionTable hitPolicy=\"" + row.policy + "\"><input><inputExpression><text>x</text></inputExpression>";
  if (!row.column.empty()) text += "<inputValues><text>" + testing::escaped(row.column) + "</text></inputValues>";
  text += "</input><output name=\"o\"/>";
  for (const char* cell : row.cells) {
    text += "<rule><inputEntry><text>" + testing::escaped(cell) + "</text></inputEntry><outputEntry><text>1</text></outputEntry></rule>";
  }
  const TableProof proof = proof_of(testing::dmn(
      testing::input("x", "Any") + testing::decision("d", testing::needs_input("x"), text + "</decisionTable>")));
  std::string found = proof.stopped_by.empty() ? "" : "stopped by " + proof.stopped_by;
  for (const TableFinding& finding : proof.findings) {
    found += std::string(text_of(finding.kind)) + (finding.when.empty() ? "" : " " + finding.when);
  }
  CHECK(found == row.findings);
}
