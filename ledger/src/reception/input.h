// One record or result as it came, and what is kept of it when it cannot be acted on.

#pragma once

#include <string>
#include <string_view>

#include "database/transaction.h"
#include "engine/record.h"
#include "ledger/reception.h"
#include "reception/json_lines.h"

namespace ledger {

struct Input {
  std::string what;    ///< `record` or `result`.
  std::string source;  ///< What the caller calls the input.
  Part part;
};

/// What is received without a ruleset in force could not be advised on, and would have no outcome.
engine::Error no_ruleset();

/// Keeps the input with its errors, and puts it on the list of inputs that wait for a person. The same bytes
/// that wait already are not put there twice. `received` is `refused` or `unmatched`.
Receipt set_aside(Transaction& transaction, const Author& author, const Input& input, Received received,
                  engine::Errors errors);

/// Takes inputs with the same bytes off that list: they could be acted on after all, or turned out to be
/// known. `reason` says by which entry.
void settle_waiting(Transaction& transaction, const Author& author, const std::string& document,
                    const std::string& reason);
std::string acted_on_by(std::uint64_t entry);

/// What an examination's entry says of it as it stands: `findings` and `pots`.
nlohmann::json standing_of(const engine::Examination& exam);

}  // namespace ledger
