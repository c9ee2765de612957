#include "work_lists.h"

#include <algorithm>

#include "ledger_access.h"
#include "system/clock.h"

namespace cli {

namespace {

using ledger::Ledger;
using nlohmann::json;

const std::vector<std::string> person_keys = {"person",      "name",  "birth_date", "sex",
                                              "identifiers", "needs", "status"};
const std::vector<std::string> examination_keys = {"exam", "exam_date", "place", "endoscopist", "findings"};

std::vector<std::string> keys(std::vector<std::string> first, const std::vector<std::string>& then = {}) {
  for (const auto& more : {person_keys, examination_keys, then})
    first.insert(first.end(), more.begin(), more.end());
  return first;
}

void add_cells(std::vector<json>& cells, const ledger::PersonLine& person) {
  for (const std::string& text : {person.person, person.name, person.birth_date, person.sex,
                                  person.identifiers, person.needs, person.status}) {
    cells.emplace_back(text);
  }
}

void add_cells(std::vector<json>& cells, const ledger::ExaminationLine& exam) {
  for (const std::string& text : {exam.exam, exam.date, exam.place, exam.endoscopist, exam.findings}) {
    cells.emplace_back(text);
  }
}

std::string days(std::int64_t count) {
  return std::to_string(count) + (count == 1 ? " day" : " days");
}

std::string padded(std::string text, std::size_t width) {
  text.resize(std::max(width, text.size()), ' ');
  return text;
}

std::string who(const ledger::PersonLine& person) {
  std::string text = person.name.empty() ? "(no name) " + person.person : person.name;
  if (!person.birth_date.empty()) text += ", born " + person.birth_date;
  if (!person.status.empty()) text += ", " + person.status;
  return text;
}

std::string how_to_find(const ledger::PersonLine& person) {
  std::string text = person.identifiers.empty() ? person.person : person.person + "; " + person.identifiers;
  if (!person.needs.empty()) text += "; needs: " + person.needs;
  return text;
}

std::string what_was_found(const ledger::ExaminationLine& exam) {
  std::string text = exam.exam + " on " + exam.date;
  if (!exam.place.empty()) text += " at " + exam.place;
  return exam.findings.empty() ? text : text + ": " + exam.findings;
}

std::string count_of(std::uint64_t count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

// Who waits on the other lists, in one sentence, and when and from what this page was made.
void add_frame(WorkList& list, const Ledger& ledger, const engine::Date& today) {
  const auto checkpoint = from_ledger(ledger.checkpoint());
  list.as_of = engine::text_of(today);
  list.stamp = "Made " + stamp_of(utc_now()) + " from " + ledger.path() + ", " +
               count_of(checkpoint.size, "entry", "entries") + ", head " +
               engine::hexadecimal(checkpoint.head).substr(0, 12) + ".";
  const ledger::Census census = from_ledger(ledger::sweep(ledger, today));
  struct Other {
    const char* name;
    std::uint64_t count;
  };
  std::string text;
  for (const Other& other : {Other{"due", census.due}, Other{"overdue", census.overdue},
                             Other{"awaiting", census.awaiting}, Other{"unplanned", census.unplanned},
                             Other{"to-close", census.to_close}, Other{"inputs", census.inputs}}) {
    if (other.name != list.name && other.count > 0) {
      text += (text.empty() ? "" : ", ") + std::string(other.name) + " " + std::to_string(other.count);
    }
  }
  if (!text.empty()) list.elsewhere.push_back("On the other lists today: " + text + ".");
}

std::string lateness(const ledger::RecallLine& line) {
  if (line.days_late > 0) return days(line.days_late) + " LATE";
  if (line.days_after_due > 0) return "due " + days(line.days_after_due) + " ago";
  return line.days_after_due == 0 ? "due today" : "in " + days(-line.days_after_due);
}

WorkListRow row_of(const ledger::RecallLine& line) {
  WorkListRow row;
  row.cells = {line.recall,
               engine::text_of(line.due),
               engine::text_of(line.due_to),
               engine::text_of(line.late_on),
               line.days_late,
               line.action,
               line.state};
  add_cells(row.cells, line.person);
  add_cells(row.cells, line.examination);
  for (const std::string& text :
       {std::string(ledger::text_of(line.risk)), line.ruleset, line.rule, line.clinician}) {
    row.cells.emplace_back(text);
  }
  row.cells.emplace_back(line.under_review);

  row.headline = padded(line.recall, 7) + engine::text_of(line.due) + "  " + padded(lateness(line), 16) +
                 padded(line.action, 26) + who(line.person);
  row.details.push_back(how_to_find(line.person));
  row.details.push_back(what_was_found(line.examination));
  std::string state = line.state;
  if (line.risk != ledger::Risk::usual) state += "; " + std::string(ledger::text_of(line.risk)) + " first";
  if (line.due_to != line.due) state += "; window to " + engine::text_of(line.due_to);
  state += "; " + (line.rule.empty() ? "decided otherwise" : line.ruleset + " " + line.rule) +
           ", signed by " + line.clinician;
  if (line.under_review) state += "; UNDER REVIEW: the answer changed after it was signed";
  row.details.push_back(std::move(state));
  return row;
}

WorkList recalls(const char* name, const std::vector<ledger::RecallLine>& lines) {
  WorkList list;
  list.name = name;
  list.keys = keys({"recall", "due", "due_to", "late_on", "days_late", "action", "state"},
                   {"risk", "ruleset", "rule", "signed_by", "under_review"});
  for (const ledger::RecallLine& line : lines) list.rows.push_back(row_of(line));
  return list;
}

const char* const order = " Riskiest first, then the latest in proportion to the interval.";

}  // namespace

WorkList due_list(const Ledger& ledger, const ledger::DueRange& range, const engine::Date& today) {
  WorkList list = recalls("due", from_ledger(ledger::due(ledger, range, today, {})));
  list.title = "Due for the next step";
  list.meaning = range.from ? "Open recalls whose due date is from " + engine::text_of(*range.from)
                            : "Open recalls that are due and not yet late";
  list.meaning +=
      (range.to ? " up to " + engine::text_of(*range.to) : std::string(", 42 days ahead")) + "." + order;
  list.next =
      "the consultant vets them (`dueward recall vet R1 --by NAME`), the office invites (`dueward recall "
      "invite R1 --means letter`) and books. 42 days after the due date a recall stands under `dueward "
      "overdue`.";
  add_frame(list, ledger, today);
  return list;
}

WorkList overdue_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = recalls("overdue", from_ledger(ledger::overdue(ledger, today, {})));
  list.title = "Overdue";
  list.meaning =
      std::string("Open recalls more than 42 days past their due date, days not ready left out.") + order;
  list.next = "book or invite again today; tell the consultant about site checks and hereditary syndromes.";
  add_frame(list, ledger, today);
  return list;
}

WorkList to_close_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list = recalls("to-close", from_ledger(ledger::to_close(ledger, today, {})));
  list.title = "To be closed by a clinician";
  list.meaning = "Open recalls of people who died or moved away: neither closes a recall by itself.";
  list.next =
      "send no invitation; the consultant closes each (`dueward recall close R1 --by NAME --reason TEXT`).";
  add_frame(list, ledger, today);
  return list;
}

WorkList awaiting_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list;
  list.name = "awaiting";
  list.title = "Awaiting pathology";
  list.meaning =
      "Examinations with histology still to come, the longest wait first: grey under 7 days, amber over "
      "10, red over 14 or when a site check may fall due first.";
  list.next =
      "ring the laboratory about red, write about amber; enter what comes with `dueward result FILE`.";
  list.keys = keys({"band", "days", "since", "pots", "lesions", "advice_state", "earliest"});
  for (const ledger::AwaitingLine& line : from_ledger(ledger::awaiting(ledger, today, {}))) {
    WorkListRow row;
    const std::string band(ledger::text_of(line.band));
    row.cells = {band,
                 line.days,
                 engine::text_of(line.since),
                 line.pots,
                 line.lesions,
                 line.advice_state,
                 line.earliest ? json(engine::text_of(*line.earliest)) : json()};
    add_cells(row.cells, line.person);
    add_cells(row.cells, line.examination);
    row.headline = padded(band, 8) + padded(days(line.days), 10) + who(line.person);
    row.details = {how_to_find(line.person), "pots: " + line.pots, what_was_found(line.examination)};
    if (line.earliest) row.details.push_back("may ask for a step from " + engine::text_of(*line.earliest));
    list.rows.push_back(std::move(row));
  }
  add_frame(list, ledger, today);
  return list;
}

WorkList unplanned_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list;
  list.name = "unplanned";
  list.title = "Without an outcome";
  list.meaning = std::string(
                     "Examinations that have no signed next step and no signed stop, and do not wait for "
                     "pathology.") +
                 order;
  list.next =
      "the consultant signs (`dueward advice sign EXAM --by NAME`), decides (`dueward advice override`), or "
      "answers the question that is put.";
  list.keys = keys({"reason", "days", "risk", "advice_state", "advice"});
  for (const ledger::UnplannedLine& line : from_ledger(ledger::unplanned(ledger, today, {}))) {
    WorkListRow row;
    row.cells = {line.reason, line.days, ledger::text_of(line.risk), line.advice_state, line.advice};
    add_cells(row.cells, line.person);
    add_cells(row.cells, line.examination);
    row.headline = padded(line.examination.exam, 10) + padded(days(line.days), 10) + who(line.person);
    row.details = {line.reason, how_to_find(line.person), what_was_found(line.examination)};
    list.rows.push_back(std::move(row));
  }
  add_frame(list, ledger, today);
  return list;
}

WorkList inputs_list(const Ledger& ledger, const engine::Date& today) {
  WorkList list;
  list.name = "inputs";
  list.title = "Inputs that wait for a person";
  list.meaning =
      "Records and results that were refused, or that could not be matched to a person or examination. "
      "Their bytes are kept.";
  list.next = "mend it at its source and send it again, then `dueward settle ENTRY --reason TEXT`.";
  list.keys = {"entry", "at", "source", "line", "kind", "reason", "document"};
  for (const ledger::InputLine& line : from_ledger(ledger::waiting_inputs(ledger, {}))) {
    WorkListRow row;
    row.cells = {line.entry, line.at, line.source, line.line, line.kind, line.reason, line.document};
    row.headline = padded(std::to_string(line.entry), 8) + line.at.substr(0, 10) + "  " +
                   padded(line.kind, 18) + line.source + ":" + std::to_string(line.line);
    row.details = {line.reason};
    list.rows.push_back(std::move(row));
  }
  add_frame(list, ledger, today);
  return list;
}

void keep_between(WorkList& list, const std::string& key, const std::optional<engine::Date>& from,
                  const std::optional<engine::Date>& to) {
  const auto column =
      static_cast<std::size_t>(std::find(list.keys.begin(), list.keys.end(), key) - list.keys.begin());
  std::erase_if(list.rows, [&](const WorkListRow& row) {
    const auto day = engine::parse_date(row.cells[column].get<std::string>());
    return day && ((from && *day < *from) || (to && *to < *day));
  });
  if (from) list.meaning += " From " + engine::text_of(*from) + ".";
  if (to) list.meaning += " Up to " + engine::text_of(*to) + ".";
}

}  // namespace cli
