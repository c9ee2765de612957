// The worked cases of uk-2020: its own, and those that lie beside the project.

#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

#include "engine/ruleset.h"
#include "support/places.h"
#include "support/shipped_rulesets.h"

namespace testing {

inline std::shared_ptr<const engine::Ruleset> uk_2020() {
  auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  return *ruleset;
}

/// Calls `use` with the record and the id of every case, and says when a file is not there.
template <class Use>
void for_each_worked_case(Use use) {
  const std::filesystem::path beside =
      std::filesystem::path(support::source()) / ".." / "shared" / "guidelines" / "cases";
  for (const std::filesystem::path& file :
       {support::rulesets_folder / "uk-2020" / "guideline.cases.jsonl", beside / "uk-2020.cases.jsonl"}) {
    std::ifstream lines(file);
    if (!lines) WARN("skipped: there is no " << file.filename().string() << " beside the project");
    for (std::string line; std::getline(lines, line);) {
      if (line.empty()) continue;
      const engine::Result<engine::Record> record = engine::read_record(line, "case");
      REQUIRE(record);
      use(*record, engine::caller_id(line));
    }
  }
}

}  // namespace testing
