// The whole answer of uk-2020 as a programmer writes it when there is no ruleset file: every sentence,
// source, later step, flag, derived fact and caution, made in straight C++ over the record.
//
// What the engine's advice is compared with, letter by letter, and the yardstick of its speed for the same
// work. Source: rulesets/uk-2020/SOURCES.md; sentences, flags and later steps are written after the ruleset.

#pragma once

#include <memory>
#include <optional>
#include <string_view>

#include "engine/advice.h"
#include "engine/record.h"
#include "engine/ruleset.h"

namespace testing {

class HandWrittenAdviser {
 public:
  /// Reads names, sources and cautions, which are the same for every record, from `ruleset`, and keeps no
  /// reference to it. Throws std::runtime_error when it lacks a row.
  explicit HandWrittenAdviser(const engine::Ruleset& ruleset);
  ~HandWrittenAdviser();

  /// What Adviser::advise() gives, but for `fired`, the trace of the tables.
  ///
  /// No value when the engine's search may find that a fact decides: when a fact other than histology is
  /// open, or when histology that is not known decides. It is tried in every way that matters, and each
  /// lesion without it makes that 22 times as long.
  std::optional<engine::Advice> advise(const engine::Record& record, std::string_view id = {}) const;

 private:
  struct Texts;
  std::unique_ptr<const Texts> texts_;
};

}  // namespace testing
