// Lists of examinations, letters and inputs, made of the ledger's lines.

#pragma once

#include <vector>

#include "ledger/letters.h"
#include "ledger/lists.h"
#include "report/work_list.h"

namespace cli {

WorkList list_of_awaiting(std::vector<ledger::AwaitingLine> lines);
WorkList list_without_outcome(const char* name, std::vector<ledger::UnplannedLine> lines);
WorkList list_of_letters_owed(std::vector<ledger::OwedLetter> lines);
WorkList list_of_letters(std::vector<ledger::LetterLine> lines);
WorkList list_of_inputs(std::vector<ledger::InputLine> lines);

}  // namespace cli
