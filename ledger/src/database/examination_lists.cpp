// The lists of examinations and inputs that wait, and the count of every list.

#include <algorithm>

#include "bands.h"
#include "database/letter_cases.h"
#include "database/letter_conditions.h"
#include "database/lines.h"
#include "database/no_reply.h"
#include "database/protocols.h"
#include "database/to_close.h"
#include "database/view.h"
#include "late_clock.h"
#include "ledger/lists.h"

namespace ledger {

using engine::Date;
using engine::Done;
using engine::Result;

namespace {

// An examination whose advice waits for pathology is on this list even when no lesion of its own is awaited:
// the histology of an earlier examination may decide.
#define AWAITING "(x.awaited > 0 OR (x.outcome = '' AND x.advice_state = 'awaiting pathology'))"
#define UNPLANNED "x.outcome = '' AND x.advice_state <> 'awaiting pathology'"
// An answer that asks for a decision can be overridden but not signed.
#define TO_SIGN "x.outcome = '' AND x.advice_state = 'settled' AND x.reason LIKE 'to be signed:%'"
#define PEOPLE_AND_EXAMINATIONS " FROM examinations AS x JOIN people AS p ON p.person = x.person"

std::optional<Date> date_or_none(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(date_of(text));
}

/// `A 26H01234 (2 lesions); B (1 lesion)`
std::string pots_of(Connection& connection, const std::string& exam) {
  std::string line;
  connection.each(
      "SELECT specimen, accession, awaited FROM pots WHERE exam = ? AND awaited > 0 ORDER BY specimen",
      [&](const Row& row) {
        const std::string specimen = row.text(0), accession = row.text(1);
        line += line.empty() ? "" : "; ";
        line += specimen.empty() ? "no pot named" : specimen;
        line += accession.empty() ? "" : " " + accession;
        line += " (" + row.text(2) + (row.number(2) == 1 ? " lesion)" : " lesions)");
      },
      exam);
  return line;
}

AwaitingLine awaiting_line(const Row& row, const Date& today, const BandLimits& limits) {
  const int column = person_columns + examination_columns;
  AwaitingLine line;
  line.person = person_of(row, 0);
  line.examination = examination_of(row, person_columns);
  line.lesions = row.number(column);
  line.since = date_of(row.text(column + 1).empty() ? line.examination.date : row.text(column + 1));
  line.days = days_between(line.since, today);
  line.advice_state = row.text(column + 2);
  line.earliest = date_or_none(row.text(column + 3));
  line.band = band_of(line.since, today, date_or_none(row.text(column + 4)), limits);
  return line;
}

bool more_pressing(const AwaitingLine& a, const AwaitingLine& b) {
  if (a.band != b.band) return b.band < a.band;
  if (a.days != b.days) return a.days > b.days;
  return a.examination.exam < b.examination.exam;
}

template <class Line>
std::vector<Line> cut(std::vector<Line> lines, const Page& page) {
  const std::size_t first = std::min<std::size_t>(page.offset, lines.size());
  const std::size_t length = page.limit == 0 ? lines.size() : page.limit;
  const std::size_t last = first + std::min<std::size_t>(length, lines.size() - first);
  return {std::make_move_iterator(lines.begin() + static_cast<std::ptrdiff_t>(first)),
          std::make_move_iterator(lines.begin() + static_cast<std::ptrdiff_t>(last))};
}

std::vector<AwaitingLine> all_awaiting(Connection& connection, const Date& today) {
  const BandLimits limits = terms_on(connection, today).bands;
  std::vector<AwaitingLine> lines;
  connection.each(
      "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS
      ", x.awaited, x.since, x.advice_state, x.earliest, x.earliest_site_check" PEOPLE_AND_EXAMINATIONS
      " WHERE " AWAITING,
      [&](const Row& row) { lines.push_back(awaiting_line(row, today, limits)); });
  std::sort(lines.begin(), lines.end(), more_pressing);
  return lines;
}

UnplannedLine unplanned_line(const Row& row, const Date& today) {
  const int column = person_columns + examination_columns;
  UnplannedLine line;
  line.person = person_of(row, 0);
  line.examination = examination_of(row, person_columns);
  line.advice_state = row.text(column);
  line.advice = row.is_null(column + 1) ? 0 : row.count(column + 1);
  line.reason = row.text(column + 2);
  line.risk = static_cast<Risk>(row.number(column + 3));
  line.days = days_between(date_of(line.examination.date), today);
  return line;
}

InputLine input_line(const Row& row) {
  return {row.count(0), row.text(1), row.text(2), static_cast<std::uint32_t>(row.number(3)),
          row.text(4),  row.text(5), row.text(6)};
}

std::int64_t limit_of(const Page& page) {
  return page.limit == 0 ? -1 : static_cast<std::int64_t>(page.limit);
}

#define UNPLANNED_LINES                                           \
  "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS \
  ", x.advice_state, x.advice, x.reason, x.risk" PEOPLE_AND_EXAMINATIONS " WHERE "
#define BY_RISK " ORDER BY x.risk, x.date, x.exam LIMIT ? OFFSET ?"

Result<std::vector<UnplannedLine>> without_outcome(const Ledger& ledger, const char* sql, const Date& today,
                                                   const Page& page) {
  return viewed<std::vector<UnplannedLine>>(ledger, [&](Connection& connection, auto& lines) {
    connection.each(
        sql, [&](const Row& row) { lines.push_back(unplanned_line(row, today)); }, limit_of(page),
        page.offset);
  });
}

/// Each is counted by itself, in one walk along the index: that they add up is found, not assumed.
void count_open(Connection& connection, const std::string& day, const std::string& soon, Census& census) {
  connection.each(
      "SELECT count(*), count(*) FILTER (WHERE due <= ?2 AND late_on >= ?1),"
      " count(*) FILTER (WHERE due > ?2 AND late_on >= ?1), count(*) FILTER (WHERE late_on < ?1)"
      " FROM recalls WHERE open = 1",
      [&](const Row& row) {
        census.open = row.count(0);
        census.due = row.count(1);
        census.later = row.count(2);
        census.overdue = row.count(3);
      },
      day, soon);
}

}  // namespace

Result<std::vector<AwaitingLine>> awaiting(const Ledger& ledger, const Date& today, const Page& page) {
  return viewed<std::vector<AwaitingLine>>(ledger, [&](Connection& connection, auto& lines) {
    lines = cut(all_awaiting(connection, today), page);
    for (AwaitingLine& line : lines) line.pots = pots_of(connection, line.examination.exam);
  });
}

Result<std::vector<UnplannedLine>> unplanned(const Ledger& ledger, const Date& today, const Page& page) {
  return without_outcome(ledger, UNPLANNED_LINES UNPLANNED BY_RISK, today, page);
}

Result<std::vector<UnplannedLine>> to_sign(const Ledger& ledger, const Date& today, const Page& page) {
  return without_outcome(ledger, UNPLANNED_LINES TO_SIGN BY_RISK, today, page);
}

Result<std::vector<InputLine>> waiting_inputs(const Ledger& ledger, const Page& page) {
  return viewed<std::vector<InputLine>>(ledger, [&](Connection& connection, auto& lines) {
    connection.each(
        "SELECT i.entry, e.at, i.source, i.line, i.kind, i.reason, i.document FROM inputs AS i"
        " JOIN entries AS e ON e.sequence = i.entry ORDER BY i.entry LIMIT ? OFFSET ?",
        [&](const Row& row) { lines.push_back(input_line(row)); }, limit_of(page), page.offset);
  });
}

Result<Census> sweep(const Ledger& ledger, const Date& today) {
  const std::string day = engine::text_of(today);
  const std::string soon = engine::text_of(plus_days(today, late_after_days));
  return viewed<Census>(ledger, [&](Connection& connection, Census& census) {
    count_open(connection, day, soon, census);
    census.letters_again = count_of(connection,
                                    "SELECT count(*) FROM letters AS l JOIN examinations AS x ON x.exam = "
                                    "l.exam WHERE " LEDGER_TO_SEND_AGAIN("x.person"));
    census.letters_owed = count_letters_owed(connection);
    census.to_close =
        count_of(connection, "SELECT count(*) FROM recalls WHERE " LEDGER_TO_CLOSE("number", "?"),
                 terms_on(connection, today).age_limit);
    census.handed_over = count_of(connection, "SELECT count(*) FROM recalls WHERE state = 'handed over'");
    census.unplanned = count_of(connection, "SELECT count(*) FROM examinations AS x WHERE " UNPLANNED);
    census.to_sign = count_of(connection, "SELECT count(*) FROM examinations AS x WHERE " TO_SIGN);
    census.to_vet = count_of(
        connection, "SELECT count(*) FROM recalls WHERE open = 1 AND state = 'opened' AND due <= ?", soon);
    census.no_reply =
        count_of(connection, "SELECT count(*) FROM recalls WHERE open = 1 AND " LEDGER_NO_REPLY(""));
    census.inputs = count_of(connection, "SELECT count(*) FROM inputs");
    const auto waiting = all_awaiting(connection, today);
    census.awaiting = waiting.size();
    census.awaiting_red = static_cast<std::uint64_t>(std::count_if(
        waiting.begin(), waiting.end(), [](const AwaitingLine& line) { return line.band == Band::red; }));
  });
}

}  // namespace ledger
