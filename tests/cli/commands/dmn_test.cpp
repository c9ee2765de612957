#include <catch2/catch.hpp>

#include "support/temporary_unit.h"

using support::Finished;
using support::run_program;

namespace {

constexpr const char* greeting = R"(<?xml version="1.0" encoding="UTF-8"?>
<definitions xmlns="https://www.omg.org/spec/DMN/20230324/MODEL/" id="d" name="greeting" namespace="urn:greeting">
  <inputData id="i" name="Full Name"><variable name="Full Name" typeRef="string"/></inputData>
  <decision id="g" name="Greeting"><variable name="Greeting" typeRef="string"/>
    <informationRequirement><requiredInput href="#i"/></informationRequirement>
    <literalExpression><text>"Hello " + Full Name</text></literalExpression>
  </decision>
</definitions>
)";

}  // namespace

TEST_CASE("dmn prints a decision's value", "[cli]") {
  const support::TemporaryUnit unit;
  const std::string file = unit.file("greeting.dmn", greeting);
  const Finished finished =
      run_program({"dmn", file, "--decision", "Greeting", "--input", R"({"Full Name": "Ada"})"});
  CHECK(finished.out == "\"Hello Ada\"\n");
  CHECK(finished.code == 0);
}

TEST_CASE("a name that the file does not have is answered with those it has", "[cli]") {
  const support::TemporaryUnit unit;
  const std::string file = unit.file("greeting.dmn", greeting);
  struct Row {
    const char* because;
    std::vector<std::string> words;
    const char* error;
  };
  const auto row = GENERATE(values<Row>({
      {"a decision",
       {"--decision", "Greting"},
       "error: the file has no decision `Greting`\n  help: did you mean `Greeting`? there are `Greeting`\n"},
      {"an input",
       {"--decision", "Greeting", "--input", R"({"Name": "Ada"})"},
       "error: the file has no input `Name`\n  help: there are `Full Name`\n"},
  }));
  INFO(row.because);
  std::vector<std::string> words = {"dmn", file};
  words.insert(words.end(), row.words.begin(), row.words.end());
  const Finished finished = run_program(words);
  CHECK(finished.code == 2);
  CHECK(finished.err == row.error);
}

TEST_CASE("a file that is no DMN is refused with its place", "[cli]") {
  const support::TemporaryUnit unit;
  const std::string file = unit.file("broken.dmn", "<definitions>");
  const Finished finished = run_program({"dmn", file, "--decision", "Greeting"});
  CHECK(finished.code == 3);
  CHECK(finished.err.find("broken.dmn") != std::string::npos);
}
