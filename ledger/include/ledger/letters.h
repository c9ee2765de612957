// Letters that went out: what they said is kept, so that one that is not right any more is found.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"

namespace ledger {

struct Letter {
  std::string exam;
  std::string letter;     ///< `result`, `invitation`, `reminder`, `discharge`: what the unit calls it.
  std::string recipient;  ///< `patient`, `family doctor`
  std::string_view text;  ///< The letter itself, as it went out: kept under its digest.
};

/// Notes a letter about the next step that is signed for the examination. It takes the place of an earlier
/// one of the same name to the same recipient. When other advice is given, or another next step is signed, it
/// stands on the list of letters to be sent again (lists.h) until the next one is noted, or until what it
/// said is signed anew.
///
/// Fails with `unknown_exam`, `not_signed` (a letter tells nothing that no clinician has signed),
/// `detail_missing`, and as ledger.h says. Gives the number of the `letter issued` entry.
engine::Result<std::uint64_t> note_letter(Ledger& ledger, const Author& author, const Letter& letter);

}  // namespace ledger
