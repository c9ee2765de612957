// How well the unit does: each measure with numerator, denominator, exclusions, and the people behind.
// Definitions and their sources: docs/measures.md.

#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"

namespace ledger {

/// One examination, recall or cancer that a measure looked at.
struct MeasuredCase {
  enum class Verdict : std::uint8_t { met, not_met, excluded };
  Verdict verdict{};
  std::string person, exam;
  std::string note;  ///< Why it was left out, or by how much: `12 days`, `interval type B`.
};

struct Measure {
  std::string id;     ///< `caecal-intubation`
  std::string title;  ///< `caecum reached`
  std::vector<MeasuredCase> cases;

  std::uint64_t numerator() const;
  std::uint64_t denominator() const;                      ///< Met and not met.
  std::map<std::string, std::uint64_t> excluded() const;  ///< By reason.
};

/// By the day of the examination, of the due date for recalls; both ends included, either open.
struct Period {
  std::optional<engine::Date> from, to;
  bool holds(const engine::Date& day) const { return (!from || *from <= day) && (!to || day <= *to); }
};

/// Every measure, in the order of docs/measures.md. Reads the whole ledger, one person at a time.
engine::Result<std::vector<Measure>> measures(const Ledger& ledger, const Period& period,
                                              const engine::Date& today);

}  // namespace ledger
