// What once broke a fuzzer is run again with every test: tests/fuzz/crashes/<target>/<anything>.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "fuzz/targets.h"
#include "support/places.h"

namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

TEST_CASE("what once broke a fuzzer no longer does", "[fuzz]") {
  const fs::path crashes = fs::path(support::source()) / "tests/fuzz/crashes";
  for (const fuzz::Target& target : fuzz::targets) {
    if (!fs::exists(crashes / target.name)) continue;
    for (const auto& entry : fs::directory_iterator(crashes / target.name)) {
      INFO(entry.path().string());
      CHECK_NOTHROW(target.run(bytes_of(entry.path())));
    }
  }
}

TEST_CASE("input that is cut off anywhere is read without harm", "[fuzz]") {
  struct Row {
    const char* target;
    const char* text;
  };
  const auto row = GENERATE(values<Row>({
      {"record_reader",
       R"({"patient":{"birth_date":"1961-05-04"},"exam":{"date":"2026-03-10","lesions":[{"id":"é\u00e9"}]}})"},
      {"parser",
       R"(function(a: number) if a in (1, [2..3[) then {"b c": a ** 2} else -a instance of list<number>)"},
      {"evaluator",
       R"(for i in 1..3 return if some x in l satisfies x = i then {"a b": @"P1Y"} else "é\u00e9")"},
      {"unary_tests", R"(not([1..5], > 7, "a"))"},
      {"dmn_reader",
       R"(<definitions xmlns="https://www.omg.org/spec/DMN/20230324/MODEL/" name="a" namespace="n">)"
       R"(<decision id="d" name="D"><variable name="D"/><literalExpression><text>1 + 1</text>)"
       R"(</literalExpression></decision></definitions>)"},
  }));
  const std::string text = row.text;
  for (const fuzz::Target& target : fuzz::targets) {
    if (std::string_view(target.name) != row.target) continue;
    for (std::size_t length = 0; length <= text.size(); ++length) {
      INFO(target.name << ": " << text.substr(0, length));
      CHECK_NOTHROW(target.run(std::string_view(text).substr(0, length)));
    }
  }
}
