#include "database/courses.h"

#include <algorithm>

#include "advising/advise.h"
#include "database/known_recalls.h"
#include "database/lines.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "ledger/kind.h"

namespace ledger {

using engine::Date;
using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

Date day_of(const std::string& on, const std::string& at) {
  return date_of(on.empty() ? at.substr(0, 10) : on);
}

void read_examination(Transaction& transaction, CourseExamination& found) {
  const auto known = find_examination(transaction, found.line.exam);
  const auto record =
      engine::read_record(engine::canonical_json(record_of(transaction, known.value())), found.line.exam);
  if (!record) return;  // its parts could be read, the whole contradicts itself: it counts as not stated
  found.exam = record->exam;
  found.conditions = record->patient.conditions.value_or(std::vector<engine::Condition>{});
}

void read_report(CourseExamination& exam, const json& body, const std::string& at) {
  exam.reported = day_of(text_at(body, "reported"), at);
  exam.reporter = text_at(body, "reporter");
  exam.signed_on.reset();  // what was signed before was signed without it
}

void read_signature(CourseExamination& exam, const json& body, const std::string& at) {
  exam.signed_on = day_of(text_at(body, "on"), at);
  exam.action = text_at(body, "action");
  exam.ruleset = text_at(body, "ruleset");
  exam.rule = text_at(body, "rule");
  exam.due.reset();
  exam.due_to.reset();
  const json due = body.value("due", json());
  if (!due.is_object()) return;
  exam.due = date_of(text_at(due, "from"));
  exam.due_to = date_of(text_at(due, "to"));
}

void read_entries(Connection& connection, Course& course) {
  connection.each(
      "SELECT e.kind, e.body, e.at FROM history AS h JOIN entries AS e ON e.sequence = h.entry"
      " WHERE h.person = ? AND e.kind IN ('advice signed', 'advice overridden', 'histology entered',"
      " 'histology amended', 'specimen sent') ORDER BY h.entry",
      [&](const Row& row) {
        const json body = json::parse(row.text(1));
        const std::string name = text_at(body, "exam");
        const auto exam = std::find_if(course.examinations.begin(), course.examinations.end(),
                                       [&](const auto& one) { return one.line.exam == name; });
        if (exam == course.examinations.end()) return;
        const std::string kind = row.text(0), at = row.text(2);
        if (kind.starts_with("histology")) {
          read_report(*exam, body, at);
        } else if (kind == "specimen sent") {
          if (const auto sent = engine::parse_date(text_at(body, "sent"))) {
            exam->sent = exam->sent ? std::min(*exam->sent, *sent) : *sent;
          }
        } else {
          read_signature(*exam, body, at);
        }
      },
      course.person.person);
}

void read_recalls(Transaction& transaction, Course& course) {
  transaction.connection().each(
      "SELECT number, exam, state, answered_by, due, due_to, late_on FROM recalls WHERE person = ?"
      " ORDER BY number",
      [&](const Row& row) {
        course.recalls.push_back({row.text(1), row.text(2), row.text(3), date_of(row.text(4)),
                                  date_of(row.text(5)), date_of(row.text(6)), "R" + row.text(0),
                                  not_ready_of(transaction, row.count(0))});
      },
      course.person.person);
}

void read_course(Transaction& transaction, Course& course) {
  Connection& connection = transaction.connection();
  connection.each(
      "SELECT " LEDGER_EXAMINATION_COLUMNS
      ", x.outcome FROM examinations AS x WHERE x.person = ? ORDER BY x.date, x.exam",
      [&](const Row& row) {
        CourseExamination& found = course.examinations.emplace_back();
        found.line = examination_of(row, 0);
        found.date = date_of(found.line.date);
        found.outcome = row.text(examination_columns);
      },
      course.person.person);
  for (CourseExamination& found : course.examinations) read_examination(transaction, found);
  read_entries(connection, course);
  read_recalls(transaction, course);
}

}  // namespace

Result<Done> each_course(const Ledger& ledger, const std::function<void(const Course&)>& visit) {
  return ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    transaction.connection().each(
        "SELECT " LEDGER_PERSON_COLUMNS
        " FROM people AS p WHERE p.person IN (SELECT person FROM examinations) ORDER BY p.described",
        [&](const Row& row) {
          Course course;
          course.person = person_of(row, 0);
          read_course(transaction, course);
          visit(course);
        });
    return Done{};
  });
}

}  // namespace ledger
