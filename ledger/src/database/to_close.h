// Which open recalls a clinician has to close or to confirm: those of people who died or moved away, and
// surveillance that is due past the protocol's age limit and that no clinician has vetted since it was
// planned. A site check and a repeat examination have no age limit.

#pragma once

namespace ledger {

/// A condition on the recall numbers; `limit` is the parameter that holds the age limit, as `?4`. Each part
/// walks a partial index.
#define LEDGER_TO_CLOSE(number, limit)                                                           \
  number                                                                                         \
      " IN (SELECT number FROM recalls WHERE open = 1 AND person IN"                             \
      " (SELECT person FROM people WHERE status <> '')"                                          \
      " UNION SELECT number FROM recalls WHERE open = 1 AND action = 'surveillance colonoscopy'" \
      " AND vetted_on = '' AND age_at_due >= " limit ")"

}  // namespace ledger
