// Whether a template may be used: every tag is known and stands where it cannot be empty, and what every
// letter needs is in it.

#pragma once

#include <string>
#include <vector>

#include "engine/result.h"
#include "ledger/letters.h"
#include "letters/tag_scanner.h"
#include "letters/unit.h"

namespace cli {

/// All that is wrong with the pieces of a whole template, those that it includes put in. `source` names it in
/// errors that have no line.
engine::Errors faults_of_template(const std::vector<TemplatePiece>& pieces, const ledger::LetterKey& kind,
                                  const UnitDetails& unit, const std::string& source, bool is_html);

}  // namespace cli
