#include "database/letter_cases.h"

#include "database/connection.h"
#include "database/entries.h"
#include "database/letter_conditions.h"
#include "database/lines.h"
#include "database/view.h"

namespace ledger {

namespace {

#define RECIPIENTS "(SELECT 'patient' AS recipient UNION ALL SELECT 'family doctor') AS w"

// A letter that is wrong because a clinician closed the recall cannot be made again: it waits on the list of
// letters to be sent again until a person has written.
#define OWING_A_RESULT                                                                                      \
  "x.outcome <> '' AND NOT EXISTS (SELECT 1 FROM examinations AS n WHERE n.person = x.person AND n.date > " \
  "x.date) AND NOT EXISTS (SELECT 1 FROM letters AS l WHERE l.exam = x.exam AND l.letter IN ('result', "    \
  "'discharge') AND l.recipient = w.recipient AND (l.another_because = '' OR " LEDGER_RECALL_CLOSED         \
  ") AND NOT " LEDGER_WITHHELD_IN_ERROR("x.person") ")"

#define OWING_AN_INVITATION                                                                   \
  "r.state IN ('invited', 'no reply') AND r.means IN ('letter', 'family doctor', 'final')"    \
  " AND NOT EXISTS (SELECT 1 FROM letters AS l WHERE l.exam = r.exam AND l.tells = r.invited" \
  " AND NOT " LEDGER_WITHHELD_IN_ERROR("r.person") ")"

#define CASE_COLUMNS                                                                                        \
  "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS                                           \
  ", x.risk, x.advice, x.signed, coalesce((SELECT n.exam || ' of ' || n.date FROM examinations AS n WHERE " \
  "n.person = x.person AND n.date > x.date ORDER BY n.date, n.exam LIMIT 1), ''), r.number, r.state,"       \
  " r.under_review, r.attempts, r.means, r.last_attempt, r.invited, r.signed"
#define CASE_TABLES                                                                                      \
  " FROM examinations AS x JOIN people AS p ON p.person = x.person LEFT JOIN recalls AS r ON r.number =" \
  " (SELECT max(number) FROM recalls WHERE exam = x.exam)"

constexpr int case_columns = person_columns + examination_columns + 12;

std::optional<std::uint64_t> count_or_none(const Row& row, int column) {
  return row.is_null(column) ? std::nullopt : std::optional(row.count(column));
}

CaseRecall recall_from(const Row& row, int first) {
  return {row.count(first),
          recall_state_of(row.text(first + 1)).value(),
          row.number(first + 2) != 0,
          row.number(first + 3),
          row.text(first + 4),
          row.text(first + 5),
          count_or_none(row, first + 6),
          count_or_none(row, first + 7)};
}

LetterCase case_from(const Row& row) {
  const int column = person_columns + examination_columns;
  LetterCase found;
  found.person = person_of(row, 0);
  found.examination = examination_of(row, person_columns);
  found.risk = static_cast<Risk>(row.number(column));
  found.advice = count_or_none(row, column + 1);
  found.signature = count_or_none(row, column + 2);
  found.later_exam = row.text(column + 3);
  if (!row.is_null(column + 4)) found.recall = recall_from(row, column + 4);
  return found;
}

}  // namespace

std::optional<LetterCase> find_letter_case(Transaction& transaction, const std::string& exam) {
  return transaction.connection().first(CASE_COLUMNS CASE_TABLES " WHERE x.exam = ?", case_from, exam);
}

std::vector<OwingCase> cases_owing_a_result(Transaction& transaction) {
  std::vector<OwingCase> found;
  transaction.connection().each(CASE_COLUMNS ", w.recipient" CASE_TABLES " CROSS JOIN " RECIPIENTS
                                             " WHERE " OWING_A_RESULT,
                                [&](const Row& row) {
                                  found.push_back({case_from(row), row.text(case_columns)});
                                });
  return found;
}

std::vector<OwingCase> cases_owing_an_invitation(Transaction& transaction) {
  std::vector<OwingCase> found;
  transaction.connection().each(
      CASE_COLUMNS
      " FROM recalls AS r JOIN examinations AS x ON x.exam = r.exam JOIN people AS p ON p.person = x.person"
      " WHERE " OWING_AN_INVITATION,
      [&](const Row& row) {
        LetterCase about = case_from(row);
        std::string recipient = recipient_of_attempt(*about.recall);
        found.push_back({std::move(about), std::move(recipient)});
      });
  return found;
}

std::uint64_t count_letters_owed(Connection& connection) {
  return count_of(connection,
                  "SELECT count(*) FROM examinations AS x CROSS JOIN " RECIPIENTS " WHERE " OWING_A_RESULT) +
         count_of(connection, "SELECT count(*) FROM recalls AS r WHERE " OWING_AN_INVITATION);
}

bool was_signed(Transaction& transaction, const LetterCase& about) {
  return transaction.connection()
      .first(
          "SELECT 1 FROM history AS h JOIN entries AS e ON e.sequence = h.entry WHERE h.person = ? AND "
          "e.subject = ?"
          " AND e.kind IN ('advice signed', 'advice overridden')",
          [](const Row& row) { return row.number(0); }, about.person.person,
          "examination:" + about.examination.exam)
      .has_value();
}

std::string recipient_of_attempt(const CaseRecall& recall) {
  if (recall.means == "letter" || recall.means == "final") return "patient";
  return recall.means == "family doctor" ? "family doctor" : "";
}

std::string letter_of_attempt(const CaseRecall& recall) {
  return recall.attempts == 1 && recall.means == "letter" ? "invitation" : "reminder";
}

std::optional<KnownLetter> find_letter(Transaction& transaction, const LetterKey& key) {
  return transaction.connection().first(
      "SELECT issued, issued_on, tells, withheld, another_because, gone FROM letters WHERE exam = ? AND "
      "letter = ?"
      " AND recipient = ?",
      [](const Row& row) {
        return KnownLetter{row.count(0), row.text(1), count_or_none(row, 2),
                           row.text(3),  row.text(4), row.text(5)};
      },
      key.exam, key.letter, key.recipient);
}

std::optional<IssuedLetter> letter_with(Transaction& transaction, const std::string& document) {
  return transaction.connection().first(
      "SELECT l.issued, x.person FROM letters AS l JOIN examinations AS x ON x.exam = l.exam WHERE "
      "l.document = ?"
      " ORDER BY l.issued DESC",
      [](const Row& row) {
        return IssuedLetter{row.count(0), row.text(1)};
      },
      document);
}

std::vector<Entry> entries_of_recall(Transaction& transaction, const std::string& person,
                                     const std::string& recall) {
  std::vector<Entry> entries;
  transaction.connection().each(
      "SELECT e.sequence, e.at, e.actor, e.kind, e.subject, e.body, e.previous, e.hash FROM history AS h"
      " JOIN entries AS e ON e.sequence = h.entry WHERE h.person = ? AND e.subject = ? ORDER BY h.entry",
      [&](const Row& row) { entries.push_back(entry_of(row)); }, person, "recall:" + recall);
  return entries;
}

std::vector<WaitingConflict> waiting_conflicts(Transaction& transaction) {
  std::vector<WaitingConflict> found;
  transaction.connection().each(
      "SELECT i.entry, i.document FROM inputs AS i JOIN entries AS e ON e.sequence = i.entry"
      " WHERE i.kind = 'input unmatched' AND e.body LIKE '%\"code\":\"identity_conflict\"%' ORDER BY i.entry",
      [&](const Row& row) {
        found.push_back({row.count(0), row.text(1)});
      });
  return found;
}

}  // namespace ledger
