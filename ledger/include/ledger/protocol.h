// The unit's protocol: which rulesets answer, the unit's settings and its clocks, from a day on. It is an
// entry that a consultant makes, not a configuration file. Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace ledger {

/// How long pathology may be out, in days. Source of the defaults: common practice.
struct BandLimits {
  std::int64_t grey_below = 7, amber_over = 10, red_over = 14;
  friend bool operator==(const BandLimits&, const BandLimits&) = default;
};

/// What the clocks and lists of a unit go by. The defaults hold as long as no protocol was adopted.
struct ProtocolTerms {
  std::string settings = "{}";        ///< A JSON object: for records that leave a setting out.
  std::string interval_end = "from";  ///< `from` or `to`: the end of the due window that is the due date.
  std::int64_t late_after_days = 42;  ///< English rule for planned tests; common practice.
  std::int64_t age_limit = 75;        ///< Completed years at the due date from which a clinician looks again.
  BandLimits bands;
};

struct AdoptedRuleset {
  std::string id, edition, digest;
  bool unverified = false;  ///< Nobody had vouched for its bytes: every answer says so.
};

struct AdoptedProtocol {
  std::uint64_t entry = 0;  ///< Number of the `protocol adopted` entry.
  engine::Date from;        ///< The first day on which it is in force.
  std::string clinician, reason;
  std::vector<AdoptedRuleset> rulesets;  ///< In their order: the first wins where two answers are equal.
  ProtocolTerms terms;
};

/// What a consultant adopts.
struct NewProtocol {
  std::vector<std::string> settings;  ///< `nation=Scotland`
  ProtocolTerms terms;                ///< `settings` of it is not read.
  engine::Date from;
  std::string clinician, reason;
  bool unverified = false;  ///< The rulesets were loaded without anyone vouching for their bytes.
};

/// Adopts a protocol; the bytes of its rulesets are kept. Fails with `no_ruleset`, `clinician_missing`,
/// `reason_missing`, `bad_terms` (limits that do not rise, no day, an age that is none), what
/// engine::apply_setting says of a setting, and as ledger.h says. Gives the number of the entry.
engine::Result<std::uint64_t> adopt_protocol(Ledger& ledger, const Author& author, const Protocol& rulesets,
                                             const NewProtocol& protocol);

/// `nation=Scotland` and the like, checked and typed as in a record: a JSON object. Fails with what
/// engine::apply_setting says.
engine::Result<std::string> settings_of(const std::vector<std::string>& assignments);

/// The one in force on `day`, or none.
engine::Result<std::optional<AdoptedProtocol>> protocol_in_force(const Ledger& ledger,
                                                                 const engine::Date& day);
/// All of them, in the order of their adoption.
engine::Result<std::vector<AdoptedProtocol>> protocols(const Ledger& ledger);

/// Its rulesets, from the bytes that the ledger keeps: what lies in a folder does not matter.
engine::Result<Protocol> rulesets_of(const Ledger& ledger, const AdoptedProtocol& protocol);

}  // namespace ledger
