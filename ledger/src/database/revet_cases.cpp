#include "database/revet_cases.h"

#include "database/lines.h"
#include "database/view.h"

namespace ledger {

namespace {

constexpr int at_a_time = 500;

RevetCase recall_case(const Row& row) {
  RevetCase found;
  found.recall = row.count(0);
  found.exam = row.text(1);
  found.advice = row.count(2);
  found.action = row.text(3);
  found.due = row.text(4);
  found.ruleset = row.text(5);
  found.rule = row.text(6);
  found.risk = row.number(7);
  found.later_step = row.number(8) != 0;
  return found;
}

RevetCase closed_case(const Row& row) {
  RevetCase found;
  found.exam = row.text(0);
  found.advice = row.count(1);
  found.risk = row.number(2);
  return found;
}

}  // namespace

engine::Result<std::vector<RevetCase>> RevetCases::next() {
  return viewed<std::vector<RevetCase>>(ledger_, [&](Connection& connection, auto& cases) {
    if (!recalls_done_) {
      connection.each(
          // One whose plan was replaced since is no later step any more.
          "SELECT r.number, r.exam, r.advice, r.action, r.due, r.ruleset, r.rule, r.risk, EXISTS"
          " (SELECT 1 FROM recalls AS before WHERE before.number = r.follows AND before.advice = r.advice)"
          " FROM recalls AS r WHERE r.open = 1 AND r.number > ? ORDER BY r.number LIMIT ?",
          [&](const Row& row) { cases.push_back(recall_case(row)); }, last_recall_, at_a_time);
      if (!cases.empty()) {
        last_recall_ = cases.back().recall;
        return;
      }
      recalls_done_ = true;
    }
    // The last examination of a person: what an earlier one closed was opened again by a later one.
    connection.each(
        "SELECT x.exam, x.advice, x.risk FROM examinations AS x WHERE x.exam > ? AND x.outcome = 'signed'"
        " AND x.advice IS NOT NULL AND NOT EXISTS (SELECT 1 FROM recalls AS r WHERE r.exam = x.exam)"
        " AND NOT EXISTS (SELECT 1 FROM examinations AS y WHERE y.person = x.person AND y.date > x.date)"
        " ORDER BY x.exam LIMIT ?",
        [&](const Row& row) { cases.push_back(closed_case(row)); }, last_exam_, at_a_time);
    if (!cases.empty()) last_exam_ = cases.back().exam;
  });
}

StoredAdvice stored_advice(Connection& connection, std::uint64_t advice) {
  return connection
      .first(
          "SELECT json_extract(now.body, '$.record'), json_extract(given.body, '$.answers[' ||"
          " json_extract(given.body, '$.chosen') || ']') FROM entries AS given JOIN examinations AS x"
          " ON x.exam = json_extract(given.body, '$.exam') JOIN entries AS now ON now.sequence = x.advice"
          " WHERE given.sequence = ?",
          [](const Row& row) {
            return StoredAdvice{row.text(0), row.text(1)};
          },
          advice)
      .value();
}

engine::Result<RevetSubject> subject_of(const Ledger& ledger, const RevetLine& line) {
  return viewed<RevetSubject>(ledger, [&](Connection& connection, RevetSubject& subject) {
    subject = connection
                  .first(
                      "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS
                      " FROM examinations AS x JOIN people AS p ON p.person = x.person WHERE x.exam = ?",
                      [](const Row& row) {
                        return RevetSubject{person_of(row, 0), examination_of(row, person_columns)};
                      },
                      line.exam)
                  .value();
  });
}

}  // namespace ledger
