// With several rulesets in force each answers; this says which answer counts. Pure.

#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/advice.h"

namespace ledger {

struct Choice {
  std::size_t chosen = 0;  ///< Index of the answer that counts.
  std::string reason;      ///< What is to be done about it, for the list of examinations without an outcome.
  std::optional<engine::Date> earliest;             ///< The earliest date that any answer could demand.
  std::optional<engine::Date> earliest_site_check;  ///< The same for a site check.
};

/// The earliest settled answer counts. Answers outside their ruleset do not, unless all are. An answer that
/// is not settled comes before it when it could still demand something earlier: refused, then depends, then
/// awaiting pathology. Where two are equal, the ruleset named first counts. `answers` is not empty.
///
/// Order of settled answers: an examination without a date (as soon as can be), then by date, then refer,
/// individualise, return to screening, no surveillance.
Choice choose(const std::vector<engine::Advice>& answers);

}  // namespace ledger
