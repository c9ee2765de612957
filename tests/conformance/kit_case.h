// The public DMN conformance kit's test files, read. Source: DMN TCK, testcase namespace 20160719.

#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/value.h"

namespace kit {

struct Input {
  std::string name;
  std::string namespace_name;
  engine::Value value;
};

struct Expectation {
  std::string name;
  engine::Value value;
  bool error = false;  ///< The value is null and a diagnostic of severity error exists.
};

struct Case {
  std::string id;
  std::string kind;  ///< `decision`, `bkm`, `decisionService`.
  std::string invocable;
  std::vector<Input> inputs;
  std::vector<Expectation> expected;
};

struct TestFile {
  std::filesystem::path model;
  std::vector<Case> cases;
};

/// Values live in `arena`.
TestFile read_test_file(const std::filesystem::path& path, engine::Arena& arena);

/// Numbers exactly; where the result has more than 15 digits, within one unit of the last digit that the kit prints.
bool agrees(const engine::Value& expected, const engine::Value& actual);

std::string read_text(const std::filesystem::path& path);

}  // namespace kit
