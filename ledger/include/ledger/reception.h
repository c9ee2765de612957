// What comes in: examination records and results. Every input is kept as it came before it is answered;
// each record and each result is one transaction. Sources: docs/record-format.md, docs/result-format.md.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace ledger {

enum class Received : std::uint8_t {
  recorded,  ///< A new examination.
  amended,   ///< A known examination with other content: new advice, unless only people see what changed.
  already_recorded,     ///< The same content was here before. Nothing changed.
  entered,              ///< Histology for lesions that had none.
  histology_amended,    ///< Histology that replaces another one.
  histology_withdrawn,  ///< The laboratory took its report back: awaited again.
  already_entered,      ///< The same histology was here before. Nothing changed.
  refused,   ///< Could not be read; its bytes are kept, and it stands on the list of refused inputs.
  unmatched  ///< A person must say whose it is; its bytes are kept, and it stands on that list.
};
/// `recorded`, `amended`, `already recorded`, ...
std::string_view text_of(Received received);

/// The answer to one record or result.
struct Receipt {
  Received received{};
  std::uint32_t line = 0;               ///< From 1, where the record begins in the input.
  std::string exam;                     ///< Empty when it could not be read.
  std::string person;                   ///< `P17`, empty when none was found.
  std::uint64_t entry = 0;              ///< Number of the entry that keeps it; 0 when nothing changed.
  std::uint64_t advice = 0;             ///< Number of the `advice given` entry; 0 when none was given.
  std::vector<engine::Advice> answers;  ///< One for each ruleset in force, in their order.
  std::size_t chosen = 0;               ///< Index of the answer that counts.
  std::vector<std::string> notes;       ///< Lines for a person: `answers recall R9, 12 days late`.
  engine::Errors errors;                ///< When refused or unmatched. Never empty then.
};

/// Reads one JSON record, or JSON Lines, from `bytes`; `source` names them in errors and in the ledger. A
/// line that cannot be read is refused with its number and does not stop the rest. One receipt for each
/// record, in order. Fails with `no_ruleset` when `protocol` is empty, else only when the ledger does
/// (ledger.h): what was received before the fault stays.
engine::Result<std::vector<Receipt>> record(Ledger& ledger, const Author& author, const Protocol& protocol,
                                            std::string_view bytes, std::string_view source);

/// The same for results: histology for named pots.
engine::Result<std::vector<Receipt>> result(Ledger& ledger, const Author& author, const Protocol& protocol,
                                            std::string_view bytes, std::string_view source);

/// A report that the laboratory has taken back.
struct Withdrawal {
  std::string exam;
  std::vector<std::string> specimens;  ///< Ids of pots, `A`; empty: all that are reported.
  std::string reason;                  ///< Never empty.
};

/// The histology of the examination's pots is awaited again, whether it came as a result or stood in the
/// record; advice is given again and the old one superseded. Fails with `unknown_exam`, `unknown_pot`,
/// `nothing_to_withdraw`, `reason_missing`, `no_ruleset`, and as ledger.h says.
engine::Result<Receipt> withdraw_histology(Ledger& ledger, const Author& author, const Protocol& protocol,
                                           const Withdrawal& withdrawal);

/// Takes an input off the list of refused and unmatched inputs. `reason` says what was done with it.
/// Fails with `unknown_input`, `reason_missing`.
engine::Result<engine::Done> settle_input(Ledger& ledger, const Author& author, std::uint64_t entry,
                                          std::string_view reason);

}  // namespace ledger
