#include "lists/examinations.h"

#include "lists/people.h"

namespace cli {

namespace {

using nlohmann::json;

constexpr std::int64_t red_after_days = 14;

// The laboratory has until the fourteenth day: the entry stands on the day after.
CalendarEntry entry_of(const ledger::AwaitingLine& line) {
  CalendarEntry entry;
  entry.day = *engine::date_from_days(engine::days_since_epoch(line.since) + red_after_days + 1);
  entry.key = "pathology:" + line.examination.exam;
  entry.summary = "pathology overdue (" + line.examination.exam + ")";
  entry.person = who(line.person);
  entry.description = joined({"pots: " + line.pots, "awaited since " + engine::text_of(line.since)});
  entry.changed_at = engine::text_of(line.since) + "T00:00:00.000Z";
  return entry;
}

WorkListRow row_of(const ledger::AwaitingLine& line) {
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
  const std::string earliest =
      line.earliest ? "may ask for a step from " + engine::text_of(*line.earliest) : "";
  row.headline = padded(band, 8) + padded(days(line.days), 10) + who(line.person);
  row.details = {how_to_find(line.person), "pots: " + line.pots, what_was_found(line.examination)};
  if (!earliest.empty()) row.details.push_back(earliest);
  row.print = {print_lines(line.person),
               {band, days(line.days), "since " + engine::text_of(line.since)},
               {line.pots},
               print_lines(line.examination),
               {earliest}};
  row.entry = entry_of(line);
  return row;
}

WorkListRow row_of(const ledger::UnplannedLine& line) {
  WorkListRow row;
  row.cells = {line.reason, line.days, ledger::text_of(line.risk), line.advice_state, line.advice};
  add_cells(row.cells, line.person);
  add_cells(row.cells, line.examination);
  row.headline = padded(line.examination.exam, 10) + padded(days(line.days), 10) + who(line.person);
  row.details = {line.reason, how_to_find(line.person), what_was_found(line.examination)};
  const std::string risk =
      line.risk == ledger::Risk::usual ? "" : std::string(ledger::text_of(line.risk)) + " first";
  row.print = {print_lines(line.person),
               print_lines(line.examination),
               {days(line.days) + " since the examination", risk},
               {line.reason},
               line.advice == 0 ? Lines{} : Lines{"advice " + std::to_string(line.advice)}};
  return row;
}

WorkListRow row_of(const ledger::LetterLine& line) {
  WorkListRow row;
  row.cells = {line.letter, line.recipient, line.issued_on, line.said, line.because};
  add_cells(row.cells, line.person);
  add_cells(row.cells, line.examination);
  row.headline = padded(line.examination.exam, 10) + line.issued_on + "  " + who(line.person);
  row.details = {line.letter + " to " + line.recipient + " said: " + line.said, "now: " + line.because,
                 how_to_find(line.person), what_was_found(line.examination)};
  row.print = {print_lines(line.person),
               {line.letter, "to " + line.recipient, line.issued_on},
               {line.said},
               {line.because},
               print_lines(line.examination)};
  return row;
}

WorkListRow row_of(const ledger::OwedLetter& line) {
  WorkListRow row;
  row.cells = {line.key.letter, line.key.recipient, line.since, line.says,
               line.because,    line.obstacle,      line.recall};
  add_cells(row.cells, line.person);
  add_cells(row.cells, line.examination);
  const std::string what = line.key.letter + " to " + line.key.recipient;
  const std::string first = line.obstacle.empty() ? "" : "A PERSON FIRST: " + line.obstacle;
  row.headline = padded(line.examination.exam, 10) + line.since + "  " + padded(what, 25) + who(line.person);
  row.details = {line.says + "; " + line.because, first, how_to_find(line.person),
                 what_was_found(line.examination)};
  std::erase(row.details, "");
  row.print = {print_lines(line.person),
               {line.key.letter, "to " + line.key.recipient, line.recall},
               {line.says},
               {line.because, first},
               print_lines(line.examination)};
  return row;
}

WorkListRow row_of(const ledger::InputLine& line) {
  WorkListRow row;
  row.cells = {line.entry, line.at, line.source, line.line, line.kind, line.reason, line.document};
  row.headline = padded(std::to_string(line.entry), 8) + line.at.substr(0, 10) + "  " +
                 padded(line.kind, 18) + line.source + ":" + std::to_string(line.line);
  row.details = {line.reason};
  return row;
}

template <class Line>
WorkList list_of(const char* name, std::vector<std::string> keys, Lines columns, std::vector<Line> lines) {
  WorkList list;
  list.name = name;
  list.keys = std::move(keys);
  list.columns = std::move(columns);
  list.rows = rows_of(std::move(lines), [](const Line& line) { return row_of(line); });
  return list;
}

}  // namespace

WorkList list_of_awaiting(std::vector<ledger::AwaitingLine> lines) {
  WorkList list = list_of(
      "awaiting", keys_around({"band", "days", "since", "pots", "lesions", "advice_state", "earliest"}),
      {"person", "wait", "pots", "examination", "what may come"}, std::move(lines));
  list.total_by = {"band"};
  list.dated = true;
  return list;
}

WorkList list_without_outcome(const char* name, std::vector<ledger::UnplannedLine> lines) {
  WorkList list = list_of(name, keys_around({"reason", "days", "risk", "advice_state", "advice"}),
                          {"person", "examination", "since", "what is missing", "entry"}, std::move(lines));
  list.total_by = {"advice_state"};
  return list;
}

WorkList list_of_letters_owed(std::vector<ledger::OwedLetter> lines) {
  return list_of("letters",
                 keys_around({"letter", "recipient", "since", "says", "because", "obstacle", "recall"}),
                 {"person", "letter", "what it says", "why", "examination"}, std::move(lines));
}

WorkList list_of_letters(std::vector<ledger::LetterLine> lines) {
  return list_of("to-resend", keys_around({"letter", "recipient", "issued_on", "said", "because"}),
                 {"person", "letter", "what it said", "why another", "examination"}, std::move(lines));
}

WorkList list_of_inputs(std::vector<ledger::InputLine> lines) {
  return list_of("inputs", {"entry", "at", "source", "line", "kind", "reason", "document"}, {},
                 std::move(lines));
}

}  // namespace cli
