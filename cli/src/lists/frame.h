// What stands around a list: when and from what it was made, how it adds up, who waits on the others.

#pragma once

#include "engine/calendar.h"
#include "ledger/ledger.h"
#include "report/work_list.h"

namespace cli {

void add_frame(WorkList& list, const ledger::Ledger& ledger, const engine::Date& today);

/// `Made 2026-03-10T09:15:00Z by dueward 0.1.0 from unit.ledger, 11 entries, head sha256:...`: on whatever an
/// auditor may hold in hand.
void add_stamp(WorkList& list, const ledger::Ledger& ledger, const engine::Date& today);

}  // namespace cli
