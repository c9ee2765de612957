#include "lists/recalls.h"

#include "ledger/particulars.h"
#include "ledger_access.h"
#include "lists/people.h"

namespace cli {

namespace {

using ledger::Particulars;
using ledger::RecallLine;

std::string lateness(const RecallLine& line) {
  if (line.days_late > 0) return days(line.days_late) + " LATE";
  if (line.days_after_due > 0) return "due " + days(line.days_after_due) + " ago";
  return line.days_after_due == 0 ? "due today" : "in " + days(-line.days_after_due);
}

std::string contacts_of(const Particulars& more) {
  std::vector<std::string> parts;
  for (const ledger::Contact& contact : more.contacts) parts.push_back(contact.means + " " + contact.day);
  return joined(parts);
}

std::string vetting_of(const Particulars& more) {
  if (more.vetted_by.empty()) return "not vetted";
  return "vetted by " + more.vetted_by + " on " + more.vetted_on +
         (more.vetted_result.empty() ? "" : ": " + more.vetted_result);
}

// `anticoagulant (since 2024-02-01, pre-assessment)`
std::string text_of(const ledger::NeedLine& need) {
  std::string when = need.since.empty() ? "" : "since " + need.since;
  if (!need.source.empty()) when += (when.empty() ? "" : ", ") + need.source;
  return need.flag + (when.empty() ? "" : " (" + when + ")");
}

Lines needs_of(const Particulars& more) {
  Lines lines;
  for (const ledger::NeedLine& need : more.needs) lines.push_back(text_of(need));
  return lines;
}

std::string rule_of(const RecallLine& line) {
  return (line.rule.empty() ? "decided otherwise" : line.ruleset + " " + line.rule) + ", signed by " +
         line.clinician;
}

std::string risk_of(const RecallLine& line) {
  return line.risk == ledger::Risk::usual ? "" : std::string(ledger::text_of(line.risk)) + " first";
}

std::string window_of(const RecallLine& line) {
  return line.due_to == line.due ? "" : "window to " + engine::text_of(line.due_to);
}

constexpr const char* review = "UNDER REVIEW: the answer changed after it was signed";

std::vector<nlohmann::json> cells_of(const RecallLine& line, const Particulars& more) {
  std::vector<nlohmann::json> cells = {line.recall,
                                       engine::text_of(line.due),
                                       engine::text_of(line.due_to),
                                       engine::text_of(line.late_on),
                                       line.days_late,
                                       line.action,
                                       line.state};
  add_cells(cells, line.person);
  add_cells(cells, line.examination);
  for (const std::string& text :
       {std::string(ledger::text_of(line.risk)), line.ruleset, line.rule, line.clinician}) {
    cells.emplace_back(text);
  }
  cells.insert(cells.end(), {line.under_review, line.days_after_due, line.interval_days, contacts_of(more),
                             more.vetted_by, more.vetted_on, more.vetted_result, more.booked_for,
                             more.not_ready, more.owner, joined(needs_of(more)), more.reached_at.telephone,
                             more.reached_at.email, joined(more.reached_at.address, ", ")});
  const engine::FamilyDoctor& doctor = more.family_doctor;
  for (const std::string& text : {doctor.name, doctor.practice, joined(doctor.address, ", ")})
    cells.emplace_back(text);
  return cells;
}

Lines details_of(const RecallLine& line, const Particulars& more) {
  ledger::PersonLine person = line.person;
  person.needs.clear();  // told below, with day and source
  Lines details = {how_to_find(person),
                   joined({joined(ways_to_reach(more.reached_at)), who_cares(more.family_doctor)}),
                   what_was_found(line.examination)};
  details.push_back(
      joined({line.state, risk_of(line), window_of(line), "late after " + engine::text_of(line.late_on),
              rule_of(line), line.under_review ? review : ""}));
  details.push_back(
      joined({vetting_of(more), more.contacts.empty() ? "not contacted" : "contacts: " + contacts_of(more),
              more.booked_for.empty() ? "" : "booked for " + more.booked_for,
              more.not_ready.empty() ? "" : "not ready " + more.not_ready,
              more.owner.empty() ? "" : "with " + more.owner}));
  details.push_back("before the examination: " +
                    (more.needs.empty() ? "nothing on record" : joined(needs_of(more))));
  return details;
}

std::vector<Lines> print_of(const RecallLine& line, const Particulars& more) {
  Lines state = {line.state,
                 line.under_review ? review : "",
                 vetting_of(more),
                 more.booked_for.empty() ? "" : "booked for " + more.booked_for,
                 more.not_ready.empty() ? "" : "not ready " + more.not_ready,
                 more.owner.empty() ? "" : "with " + more.owner};
  if (more.contacts.empty()) state.push_back("not contacted");
  for (const ledger::Contact& contact : more.contacts) state.push_back(contact.means + " " + contact.day);
  Lines what = {line.recall + " " + line.action, risk_of(line), rule_of(line)};
  Lines when = {"due " + engine::text_of(line.due), window_of(line),
                "late after " + engine::text_of(line.late_on), lateness(line)};
  Lines reach = ways_to_reach(more.reached_at);
  reach.push_back(who_cares(more.family_doctor));
  Lines needs = more.needs.empty() ? Lines{"nothing on record"} : needs_of(more);
  return {print_lines(line.person), reach, what, when, print_lines(line.examination), state, needs};
}

CalendarEntry entry_of(const RecallLine& line, const Particulars& more) {
  CalendarEntry entry;
  entry.day = line.due;
  entry.key = "recall:" + line.recall;
  entry.summary = line.action + " due (" + line.recall + ")";
  entry.person = who(line.person);
  entry.description =
      joined({line.state, risk_of(line), window_of(line), "late after " + engine::text_of(line.late_on),
              rule_of(line), more.booked_for.empty() ? "" : "booked for " + more.booked_for});
  entry.changed_at = more.changed_at;
  entry.sequence = more.changes;
  entry.confirmed = !more.booked_for.empty();
  return entry;
}

WorkListRow row_of(const ledger::Ledger& ledger, const RecallLine& line) {
  const Particulars more = from_ledger(ledger::particulars_of(ledger, line));
  WorkListRow row;
  row.cells = cells_of(line, more);
  row.headline = padded(line.recall, 7) + engine::text_of(line.due) + "  " + padded(lateness(line), 16) +
                 padded(line.action, 26) + who(line.person);
  row.details = details_of(line, more);
  row.print = print_of(line, more);
  row.entry = entry_of(line, more);
  return row;
}

WorkList list_of(const std::string& name, Rows rows) {
  WorkList list;
  list.name = name;
  list.keys = keys_around({"recall", "due", "due_to", "late_on", "days_late", "action", "state"},
                          {"risk",          "ruleset",       "rule",
                           "signed_by",     "under_review",  "days_after_due",
                           "interval_days", "contacts",      "vetted_by",
                           "vetted_on",     "vetted_result", "booked_for",
                           "not_ready",     "owner",         "pre_assessment",
                           "telephone",     "email",         "address",
                           "family_doctor", "practice",      "practice_address"});
  list.total_by = {"action", "state"};
  list.columns = {"person",           "how to reach them",  "what is due",           "when",
                  "last examination", "state and contacts", "before the examination"};
  list.dated = true;
  list.rows = std::move(rows);
  return list;
}

}  // namespace

WorkList list_of_recalls(const ledger::Ledger& ledger, const std::string& name,
                         std::vector<RecallLine> lines) {
  return list_of(
      name, rows_of(std::move(lines), [&ledger](const RecallLine& line) { return row_of(ledger, line); }));
}

WorkList list_of_recalls(const ledger::Ledger& ledger, const std::string& name, std::uint64_t count,
                         std::function<engine::Result<ledger::RecallLines>()> open) {
  return list_of(name, {count, [&ledger, open = std::move(open)](const Rows::Visit& visit) {
                          auto lines = from_ledger(open());
                          while (const auto line = from_ledger(lines.next())) {
                            if (!visit(row_of(ledger, *line))) return;
                          }
                        }});
}

}  // namespace cli
