// Which letters a person has to see to. Where somebody died or moved away nobody writes, and what was decided
// because of that stands only as long as it does: a death or a move that is taken back brings it up again.

#pragma once

namespace ledger {

/// A letter `l` that is not right because a clinician closed the recall.
#define LEDGER_RECALL_CLOSED "l.another_because LIKE 'recall R% was closed%'"

/// The letter `l` is to be sent again; `person` is whose it is. Not where the recall was closed of someone
/// who was gone, and is.
#define LEDGER_TO_SEND_AGAIN(person)                                            \
  "l.another_because <> '' AND l.withheld = '' AND NOT (l.another_because LIKE" \
  " 'recall R% was closed after `%' AND (SELECT status FROM people WHERE person = " person ") <> '')"

/// The letter `l` was withheld from someone who was gone, and is not any more.
#define LEDGER_WITHHELD_IN_ERROR(person) \
  "(l.gone <> '' AND (SELECT status FROM people WHERE person = " person ") = '')"

}  // namespace ledger
