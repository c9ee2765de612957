#include "work_lists.h"

#include <algorithm>

#include "ledger/long_lists.h"
#include "ledger_access.h"
#include "lists/examinations.h"
#include "lists/frame.h"
#include "lists/recalls.h"

namespace cli {

namespace {

using ledger::Ledger;

const char* const order = " Riskiest first, then the latest in proportion to the interval.";

WorkList finished(WorkList list, const Ledger& ledger, const engine::Date& today) {
  add_frame(list, ledger, today);
  return list;
}

WorkList recalls(const char* name, const Ledger& ledger,
                 engine::Result<std::vector<ledger::RecallLine>> lines) {
  return list_of_recalls(ledger, name, from_ledger(std::move(lines)));
}

std::size_t column_of(const WorkList& list, const std::string& key) {
  return static_cast<std::size_t>(std::find(list.keys.begin(), list.keys.end(), key) - list.keys.begin());
}

}  // namespace

WorkList due_list(const Ledger& ledger, const ledger::DueRange& range, const engine::Date& today) {
  WorkList list =
      list_of_recalls(ledger, "due", from_ledger(ledger::count_due(ledger, range, today)),
                      [&ledger, range, today] { return ledger::lines_due(ledger, range, today); });
  list.title = "Due for the next step";
  list.meaning = range.from ? "Open recalls whose due date is from " + engine::text_of(*range.from)
                            : "Open recalls that are due and not yet late";
  list.meaning +=
      (range.to ? " up to " + engine::text_of(*range.to) : std::string(", 42 days ahead")) + "." + order;
  list.next =
      "the consultant vets them (`dueward recall vet R1 --by NAME`), the office invites (`dueward recall "
      "invite R1 --means letter`) and books. After its late date a recall stands under `dueward overdue`.";
  return finished(std::move(list), ledger, today);
}

WorkList overdue_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_of_recalls(ledger, "overdue", from_ledger(ledger::count_overdue(ledger, today)),
                                  [&ledger, today] { return ledger::lines_overdue(ledger, today); });
  list.title = "Overdue";
  list.meaning = std::string(
                     "Open recalls past their late date: 42 days after the due date, unless the unit's "
                     "protocol says otherwise, days not ready left out.") +
                 order;
  list.next =
      "book or invite again today; tell the consultant about site checks and hereditary syndromes. Month by "
      "month: `dueward census`.";
  return finished(std::move(list), ledger, today);
}

WorkList to_vet_list(const Ledger& ledger, const std::optional<engine::Date>& to, const engine::Date& today) {
  WorkList list = list_of_recalls(ledger, "to-vet", from_ledger(ledger::count_to_vet(ledger, to, today)),
                                  [&ledger, to, today] { return ledger::lines_to_vet(ledger, to, today); });
  list.title = "To be vetted";
  list.meaning = "Open recalls that no clinician has confirmed yet, due up to " +
                 (to ? engine::text_of(*to) : std::string("42 days ahead")) + ", late ones too." + order;
  list.next = "the consultant confirms that each is still right: `dueward recall vet R1 --by NAME`.";
  return finished(std::move(list), ledger, today);
}

WorkList no_reply_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = recalls("no-reply", ledger, ledger::no_reply(ledger, today, {}));
  list.title = "No reply";
  list.meaning = std::string("Open recalls whose invitations are used up. No reply closes nothing.") + order;
  list.next = "the owner named decides: another way to reach them, or a clinician closes it with a reason.";
  return finished(std::move(list), ledger, today);
}

WorkList to_close_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = recalls("to-close", ledger, ledger::to_close(ledger, today, {}));
  list.title = "To be closed by a clinician";
  list.meaning =
      "Open recalls of people who died or moved away, and surveillance due past the age limit of the "
      "protocol "
      "that no clinician has vetted: none of it closes a recall by itself.";
  list.next =
      "send no invitation; the consultant closes each (`dueward recall close R1 --by NAME --reason TEXT`), "
      "or "
      "confirms it in spite of the age (`dueward recall vet R1 --by NAME`).";
  return finished(std::move(list), ledger, today);
}

WorkList awaiting_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_of_awaiting(from_ledger(ledger::awaiting(ledger, today, {})));
  list.title = "Awaiting pathology";
  list.meaning =
      "Examinations with histology still to come, the longest wait first: grey under 7 days, amber over "
      "10, red over 14 or when a site check may fall due first.";
  list.next =
      "ring the laboratory about red, write about amber; enter what comes with `dueward result FILE`.";
  return finished(std::move(list), ledger, today);
}

WorkList unplanned_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_without_outcome("unplanned", from_ledger(ledger::unplanned(ledger, today, {})));
  list.title = "Without an outcome";
  list.meaning = std::string(
                     "Examinations that have no signed next step and no signed stop, and do not wait for "
                     "pathology.") +
                 order;
  list.next =
      "the consultant signs (`dueward advice sign EXAM --by NAME`), decides (`dueward advice override`), or "
      "answers the question that is put.";
  return finished(std::move(list), ledger, today);
}

WorkList to_sign_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_without_outcome("to-sign", from_ledger(ledger::to_sign(ledger, today, {})));
  list.title = "To be signed";
  list.meaning = std::string(
                     "Examinations whose answer is settled and lacks nothing but a signature; they stand "
                     "under `unplanned` too.") +
                 order;
  list.next =
      "the consultant reads the answer (`dueward patient PERSON`) and signs it: `dueward advice sign "
      "EXAM --by NAME --advice ENTRY`.";
  return finished(std::move(list), ledger, today);
}

WorkList letters_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_of_letters_owed(from_ledger(ledger::letters_owed(ledger, {})));
  list.title = "Letters that are owed";
  list.meaning =
      "What is signed and not yet told to patient and family doctor, and attempts by letter without one. "
      "Riskiest first, then since when.";
  list.next =
      "`dueward letter make --to DIR --unit FILE` writes all that can be made; the others need a person "
      "first. A letter that will not be sent: `dueward letter withhold`.";
  return finished(std::move(list), ledger, today);
}

WorkList to_resend_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_of_letters(from_ledger(ledger::letters_to_send_again(ledger, {})));
  list.title = "Letters that need another";
  list.meaning = "Letters that went out and are not right any more, and why.";
  list.next =
      "when the new answer is signed it stands under `letters`, and `dueward letter make` makes it; after a "
      "recall "
      "was closed a person writes (`dueward letter note`, or `letter withhold`).";
  return finished(std::move(list), ledger, today);
}

WorkList inputs_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = list_of_inputs(from_ledger(ledger::waiting_inputs(ledger, {})));
  list.title = "Inputs that wait for a person";
  list.meaning =
      "Records and results that were refused, or that could not be matched to a person or examination. "
      "Their bytes are kept.";
  list.next = "mend it at its source and send it again, then `dueward settle ENTRY --reason TEXT`.";
  return finished(std::move(list), ledger, today);
}

void keep_between(WorkList& list, const std::string& key, const std::optional<engine::Date>& from,
                  const std::optional<engine::Date>& to) {
  if (!from && !to) return;
  if (!list.unfiltered) list.unfiltered = list.rows.size();
  list.rows = list.rows.where([column = column_of(list, key), from, to](const WorkListRow& row) {
    const auto day = engine::parse_date(row.cells[column].get<std::string>());
    return !day || !((from && *day < *from) || (to && *to < *day));
  });
  if (from) list.filters.push_back(key + " from " + engine::text_of(*from));
  if (to) list.filters.push_back(key + " up to " + engine::text_of(*to));
}

void keep_where(WorkList& list, const std::string& key, const std::string& value) {
  if (!list.unfiltered) list.unfiltered = list.rows.size();
  list.rows = list.rows.where([column = column_of(list, key), value](const WorkListRow& row) {
    return plain(row.cells[column]) == value;
  });
  list.filters.push_back(key + " " + value);
}

// A part of a list is never taken for the whole: each format shows the filters, and `unfiltered` beside them.
void keep_first(WorkList& list, std::uint64_t limit) {
  const std::uint64_t all = list.rows.size();
  if (limit == 0 || all <= limit) return;
  list.rows = list.rows.first(limit);
  list.unfiltered = list.unfiltered.value_or(all);
  list.filters.push_back("the first " + std::to_string(limit));
}

}  // namespace cli
