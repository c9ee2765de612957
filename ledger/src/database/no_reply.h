// Which open recalls have used their contacts up: nobody is invited any more, and the owner decides. An
// appointment that was made all the same and came to nothing puts them back; one that stands, or was kept,
// does not wait for the owner.

#pragma once

namespace ledger {

/// A condition on a recall, `prefix` is empty or `r.`. 5 is the length of the contact ladder (recalls.h); a
/// partial index needs it as it stands.
#define LEDGER_NO_REPLY(prefix) prefix "attempts >= 5 AND " prefix "state NOT IN ('booked', 'attended')"

}  // namespace ledger
