#include "lists/frame.h"

#include "ledger/lists.h"
#include "ledger/particulars.h"
#include "ledger_access.h"
#include "system/clock.h"

namespace cli {

namespace {

std::string count_of(std::uint64_t count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

// Each number is counted by itself: that they add up is found, not assumed.
std::string reconciliation_of(const ledger::Census& census) {
  const std::uint64_t sum = census.later + census.due + census.overdue;
  return "Open recalls: " + std::to_string(census.open) + " = due later " + std::to_string(census.later) +
         " + due " + std::to_string(census.due) + " + overdue " + std::to_string(census.overdue) +
         (sum == census.open ? "." : ": THIS DOES NOT ADD UP; run `dueward audit verify`.");
}

std::string others_of(const WorkList& list, const ledger::Census& census) {
  struct Other {
    const char* name;
    std::uint64_t count;
  };
  std::string text;
  for (const Other& other : {Other{"due", census.due}, Other{"overdue", census.overdue},
                             Other{"awaiting", census.awaiting}, Other{"unplanned", census.unplanned},
                             Other{"to-sign", census.to_sign}, Other{"to-vet", census.to_vet},
                             Other{"no-reply", census.no_reply}, Other{"to-close", census.to_close},
                             Other{"letters", census.letters_owed},
                             Other{"to-resend", census.letters_again}, Other{"inputs", census.inputs}}) {
    if (other.name != list.name && other.count > 0) {
      text += (text.empty() ? "" : ", ") + std::string(other.name) + " " + std::to_string(other.count);
    }
  }
  return text.empty() ? "" : "On the other lists today: " + text + ".";
}

}  // namespace

void add_stamp(WorkList& list, const ledger::Ledger& ledger, const engine::Date& today) {
  const auto checkpoint = from_ledger(ledger.checkpoint());
  list.as_of = engine::text_of(today);
  list.head = engine::hexadecimal(checkpoint.head);
  list.ledger_identity = from_ledger(ledger::identity_of(ledger));
  list.stamp = "Made " + stamp_of(utc_now()) + " by dueward " DUEWARD_VERSION " from " + ledger.path() +
               ", " + count_of(checkpoint.size, "entry", "entries") + ", head sha256:" + list.head + ".";
}

void add_frame(WorkList& list, const ledger::Ledger& ledger, const engine::Date& today) {
  add_stamp(list, ledger, today);
  const ledger::Census census = from_ledger(ledger::sweep(ledger, today));
  if (list.name == "due" || list.name == "overdue") list.reconciliation = reconciliation_of(census);
  if (const std::string others = others_of(list, census); !others.empty()) list.elsewhere.push_back(others);
}

}  // namespace cli
