// Two rulesets over the same records: where their answers part, with the plainest record for each difference.
// Pure: the records are made (engine/representative.h).

#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice.h"

namespace cli {

/// What the second ruleset asks of the patient, compared with the first. In the order in which they are
/// shown.
enum class Direction : std::uint8_t { sooner, later, stops, starts, other };
std::string_view text_of(Direction direction);

/// One side of a difference.
struct Outcome {
  std::string answer;  ///< The action; `outside: ask us-2012`, `refused`, ... for what is no action.
  std::optional<engine::Interval> interval;
  std::string rule;
  friend bool operator==(const Outcome&, const Outcome&) = default;
};

struct Difference {
  Outcome first, second;
  Direction direction{};
  std::int64_t months =
      0;  ///< By how much the second comes later at the start of its window; less than 0 is sooner.
  std::string example;      ///< The plainest record that shows it.
  std::size_t records = 0;  ///< How many of those tried show it.
};

struct Comparison {
  std::size_t records = 0;    ///< Tried.
  std::size_t different = 0;  ///< Of them with another action or interval.
  std::vector<Difference> differences;
};

Comparison compare(const std::shared_ptr<const engine::Ruleset>& first,
                   const std::shared_ptr<const engine::Ruleset>& second);

}  // namespace cli
