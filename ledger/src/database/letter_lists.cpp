// The list of letters that are not right any more.

#include "database/letter_conditions.h"
#include "database/lines.h"
#include "database/view.h"
#include "ledger/lists.h"

namespace ledger {

namespace {

LetterLine line_of(const Row& row) {
  int column = person_columns + examination_columns;
  LetterLine line;
  line.person = person_of(row, 0);
  line.examination = examination_of(row, person_columns);
  line.letter = row.text(column++);
  line.recipient = row.text(column++);
  line.issued_on = row.text(column++);
  line.said = row.text(column++);
  const std::string due = row.text(column++);
  if (!due.empty()) line.said += ", due " + due;
  line.because = row.text(column);
  return line;
}

constexpr const char* to_send_again =
    "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS
    ", l.letter, l.recipient, l.issued_on, l.action, l.due, l.another_because"
    " FROM letters AS l JOIN examinations AS x ON x.exam = l.exam"
    " JOIN people AS p ON p.person = x.person WHERE " LEDGER_TO_SEND_AGAIN(
        "x.person") " ORDER BY x.risk, l.issued_on, l.exam, l.letter, l.recipient LIMIT ? OFFSET ?";

}  // namespace

engine::Result<std::vector<LetterLine>> letters_to_send_again(const Ledger& ledger, const Page& page) {
  const std::int64_t limit = page.limit == 0 ? -1 : static_cast<std::int64_t>(page.limit);
  return viewed<std::vector<LetterLine>>(ledger, [&](Connection& connection, auto& lines) {
    connection.each(
        to_send_again, [&](const Row& row) { lines.push_back(line_of(row)); }, limit, page.offset);
  });
}

}  // namespace ledger
