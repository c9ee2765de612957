// The engine against another FEEL evaluator: the npm package @bpmn-io/feelin, whose answers stand in
// feelin_answers.jsonl with its version. Not asked are null logic, dates and durations, and decimals beyond
// doubles, in which that package leaves the standard. Outside check. Source: ask_feelin.mjs made the answers;
// DEVELOPERS.md says how to ask again.

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "engine/model.h"
#include "support/places.h"

using namespace engine;
using nlohmann::json;

namespace {

const std::string answers_file = support::source("tests/engine/differential/feelin_answers.jsonl");

json json_of(const Value& value) {
  switch (value.kind()) {
    case Kind::boolean:
      return value.boolean();
    case Kind::number:
      return json::parse(value.number().text());
    case Kind::string:
      return std::string(value.string());
    case Kind::list: {
      json list = json::array();
      for (const Value& item : value.list()) list.push_back(json_of(item));
      return list;
    }
    case Kind::context: {
      json object = json::object();
      const Context& context = value.context();
      for (std::uint32_t i = 0; i < context.size; ++i)
        object[std::string(context.keys[i])] = json_of(context.values[i]);
      return object;
    }
    default:
      return nullptr;
  }
}

json answer_to(const json& question, const json& names) {
  Arena arena;
  const auto value_of = [&](const json& plain) {
    const Result<Value> value = value_from_json(plain.dump(), arena);
    REQUIRE(value);
    return *value;
  };
  std::vector<Named> scope;
  for (const auto& [name, value] : names.items()) scope.push_back({arena.keep(name), value_of(value)});
  const Result<Answer> answer = question.contains("cell")
                                    ? evaluate_unary_tests(question["cell"].get<std::string>(),
                                                           value_of(question["tested"]), scope, arena)
                                    : evaluate(question["feel"].get<std::string>(), scope, arena);
  return answer ? json_of(answer->value) : json("error: " + answer.errors().front().message);
}

}  // namespace

TEST_CASE("an expression has the value that feelin gives, but where it is said why not",
          "[feel][differential]") {
  std::ifstream lines(answers_file);
  std::string line;
  REQUIRE(std::getline(lines, line));
  const json header = json::parse(line);
  CHECK_FALSE(header["version"].get<std::string>().empty());
  std::map<std::string, int> asked;
  int all = 0;
  while (std::getline(lines, line)) {
    const json row = json::parse(line);
    ++asked[row["about"]];
    ++all;
    INFO(line);
    const json names =
        row.contains("with") ? header["names"][row["with"].get<std::string>()] : json::object();
    const json ours = answer_to(row, names);
    if (row.contains("because")) {
      CHECK(ours == row["ours"]);
      CHECK(ours != row["answer"]);  // else it is no difference any more
    } else {
      CHECK(ours == row["answer"]);
    }
  }
  CHECK(all >= 300);
  for (const auto& [about, count] : asked) {
    INFO(about);
    CHECK(count >= 5);
  }
}
