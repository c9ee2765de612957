// What would change under other rulesets: every open recall, and every examination that a rule closed, is
// advised on again. Nothing is written: a change is signed one by one, by a clinician.

#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "ledger/rulesets.h"

namespace ledger {

/// `starts`: was stopped by a rule and would have a recall. `stops`: has a recall and would have none.
/// `other`: another action on the same day, a referral, or an answer that a person has to complete.
enum class Shift : std::uint8_t { starts, sooner, other, later, stops, unchanged };
std::string_view text_of(Shift shift);

struct RevetLine {
  Shift shift{};
  std::string exam;    ///< The examination that it goes back to.
  std::string recall;  ///< Empty when a rule closed it.
  Risk risk = Risk::usual;
  std::string action;  ///< As it stands.
  std::optional<engine::Date> due;
  std::string ruleset, rule;  ///< The rule is empty when a clinician decided otherwise.
  std::string new_state, new_action;
  std::optional<engine::Date> new_due;
  std::string new_ruleset, new_rule, because;
  std::int64_t days = 0;  ///< From the due date that stands to the new one; 0 when one is missing.
};

struct Revetted {
  std::vector<RevetLine> moved;           ///< All but `unchanged`, in the order of Shift, riskiest first.
  std::array<std::uint64_t, 6> counts{};  ///< By Shift.
  std::uint64_t count(Shift shift) const { return counts.at(static_cast<std::size_t>(shift)); }
  std::uint64_t read() const;  ///< All of them.
};

/// Whom a line is about. Read when it is shown: of all that would move only the answers are held.
struct RevetSubject {
  PersonLine person;
  ExaminationLine examination;
};
/// Fails as ledger.h says.
engine::Result<RevetSubject> subject_of(const Ledger& ledger, const RevetLine& line);

/// `threads` readers, each with a connection and advisers of its own; at least one. Fails with `no_ruleset`
/// when `to` is empty, and as ledger.h says.
engine::Result<Revetted> revet(const Ledger& ledger, const Protocol& to, const engine::Date& today,
                               std::uint32_t threads);

}  // namespace ledger
