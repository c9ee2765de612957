// The ledger's lists made ready for people: what each one means, and what to do with it.

#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "engine/calendar.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "report/work_list.h"

namespace cli {

/// Each fails as the ledger does (ledger_access.h, Failure). Rows of recalls are read as they are written:
/// `ledger` must outlive the list, and a Moment of it be held until then.
WorkList due_list(const ledger::Ledger& ledger, const ledger::DueRange& range, const engine::Date& today);
WorkList overdue_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList to_vet_list(const ledger::Ledger& ledger, const std::optional<engine::Date>& to,
                     const engine::Date& today);
WorkList no_reply_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList to_close_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList awaiting_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList unplanned_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList to_sign_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList letters_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList to_resend_list(const ledger::Ledger& ledger, const engine::Date& today);
WorkList inputs_list(const ledger::Ledger& ledger, const engine::Date& today);

/// Takes off the rows whose day in column `key` lies outside `from` to `to`, either end open.
void keep_between(WorkList& list, const std::string& key, const std::optional<engine::Date>& from,
                  const std::optional<engine::Date>& to);

/// Takes off the rows whose text in column `key` is another than `value`.
void keep_where(WorkList& list, const std::string& key, const std::string& value);

/// Takes off all rows but the first `limit`; 0 takes off none.
void keep_first(WorkList& list, std::uint64_t limit);

}  // namespace cli
