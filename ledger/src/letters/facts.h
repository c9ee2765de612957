// The facts of one letter, within a transaction.

#pragma once

#include "database/letter_cases.h"
#include "engine/result.h"
#include "ledger/letters.h"

namespace ledger {

/// `unknown_letter` unless it is one of ours to one of ours.
engine::Result<engine::Done> check_key(const LetterKey& key);

/// As letter_facts (letters.h).
engine::Result<LetterFacts> facts_in(Transaction& transaction, const LetterKey& key,
                                     const Permission& permission);

}  // namespace ledger
