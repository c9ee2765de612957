// A ruleset written in a few lines: the FEEL of its decisions, and its rows. For tests only.

#pragma once

#include <string>
#include <vector>

#include "engine/ruleset.h"

namespace engine::testing {

struct SmallRow {
  std::string id;
  std::string evidence = "guideline";
  std::string says = "what the row says";
  std::string source = "Test guideline 2026, table 1";
};

struct SmallRuleset {
  std::string about =
      R"({id: "test-2026", edition: "1.0.0", title: "Test guideline", publisher: "Test publisher",
          published: "2026-01-01", doi: "10.0000/test", state: "current", supersedes: [], superseded by: null,
          cautions: []})";
  std::string next_step;
  std::string flags;  ///< Empty: no such decision.
  std::string facts;  ///< Empty: no such decision.
  std::vector<SmallRow> rows = {{"T-01"}, {"T-02"}, {"T-03"}, {"T-04", "memory"}};
  std::vector<std::pair<std::string, std::string>>
      helpers;       ///< Decisions that `Next step` may use: name, FEEL.
  std::string more;  ///< Further DMN elements.
};

/// `{action: ..., from: ..., ...}` in FEEL, with what every answer needs.
std::string answer(const std::string& action, const std::string& months, const std::string& rule,
                   const std::string& because = "because of the test");

std::string dmn_of(const SmallRuleset& ruleset);

/// Loads it; fails the test with the errors when it cannot be loaded.
std::shared_ptr<const Ruleset> loaded(const SmallRuleset& ruleset);

/// `next_step` alone, over the usual rows.
std::shared_ptr<const Ruleset> ruleset_with(const std::string& next_step);

/// A lesion as JSON, known in every respect but for what `changes` replaces: `"size_mm":{"from":8,"to":12}`.
std::string lesion(const std::string& id, const std::string& changes = "");

/// A record with these lesions, complete colonoscopy on 10 March 2026; `changes` as for `lesion`, at the
/// exam.
std::string record_with(const std::vector<std::string>& lesions, const std::string& exam_changes = "",
                        const std::string& patient_changes = "");

}  // namespace engine::testing
