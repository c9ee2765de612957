#include "database/derive_letters.h"

#include "database/connection.h"
#include "database/derive.h"

namespace ledger {

namespace {

using nlohmann::json;

/// A result and a discharge tell the same signature. What the person was told of an older one, they set
/// right.
void take_the_place_of_others(Connection& connection, const json& body) {
  const std::string letter = text_at(body, "letter");
  if (letter != "result" && letter != "discharge") return;
  connection.run(
      "DELETE FROM letters WHERE exam = ?1 AND recipient = ?2 AND letter <> ?3 AND (letter IN ('result', "
      "'discharge')"
      " OR (letter IN ('invitation', 'reminder') AND another_because <> ''))",
      text_at(body, "exam"), text_at(body, "to"), letter);
}

/// `died 2026-02-01`, as it is noted of the person who was examined; empty of one who is there.
std::string status_at(Connection& connection, const std::string& exam) {
  return connection
      .first(
          "SELECT p.status FROM examinations AS x JOIN people AS p ON p.person = x.person WHERE x.exam = ?",
          [](const Row& row) { return row.text(0); }, exam)
      .value_or("");
}

void keep(Connection& connection, std::uint64_t entry, const json& body, const std::string& withheld) {
  const std::string exam = text_at(body, "exam");
  connection.run(
      "INSERT INTO letters (exam, letter, recipient, action, due, advice, tells, document, withheld, gone,"
      " issued, issued_on, another_because, entry)"
      " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, nullif(?8, ''), ?9, ?12, ?10, ?11, '', ?10)"
      " ON CONFLICT (exam, letter, recipient) DO UPDATE SET action = ?4, due = ?5, advice = ?6, tells = ?7,"
      " document = nullif(?8, ''), withheld = ?9, gone = ?12, issued = ?10, issued_on = ?11,"
      " another_because = '', entry = ?10",
      exam, text_at(body, "letter"), text_at(body, "to"), text_at(body, "action"), text_at(body, "due"),
      body.at("advice").get<std::uint64_t>(), number_at(body, "tells"), text_at(body, "document"), withheld,
      entry, text_at(body, "on"), withheld.empty() ? std::string() : status_at(connection, exam));
}

/// `because` is only said of letters that were right until now.
void mark(Connection& connection, std::uint64_t entry, std::int64_t recall, const std::string& because) {
  connection.run(
      "UPDATE letters SET another_because = ?3, entry = ?1 WHERE another_because = '' AND exam ="
      " (SELECT exam FROM recalls WHERE number = ?2) AND action = (SELECT action FROM recalls WHERE number = "
      "?2)",
      entry, recall, because);
}

void compare_with_date(Connection& connection, std::uint64_t entry, std::int64_t recall,
                       const std::string& due) {
  connection.run(
      "UPDATE letters SET another_because = iif(due = ?3, '', 'the date was moved to ' || ?3), entry = ?1"
      " WHERE (another_because = '' OR another_because LIKE 'the date was moved to %') AND exam ="
      " (SELECT exam FROM recalls WHERE number = ?2) AND action = (SELECT action FROM recalls WHERE number = "
      "?2)",
      entry, recall, due);
}

/// `recall R7 was closed`; letter_conditions.h looks for it, and for what follows of a person who is gone.
std::string closing_words(const json& body) {
  return "recall " + text_at(body, "recall") + " was closed";
}

std::string why_closed(Connection& connection, std::int64_t recall, const json& body) {
  const auto gone = connection.first(
      "SELECT p.status FROM recalls AS r JOIN people AS p ON p.person = r.person WHERE r.number = ? AND "
      "p.status <> ''",
      [](const Row& row) { return row.text(0); }, recall);
  return closing_words(body) + (gone ? " after `" + *gone + "` was noted: " : ": ") + text_at(body, "reason");
}

}  // namespace

void derive_letter(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  take_the_place_of_others(connection, body);
  keep(connection, entry, body, kind == Kind::letter_withheld ? text_at(body, "reason") : "");
}

void derive_letters_signed(Connection& connection, std::uint64_t entry, const json& body) {
  const json due = body.value("due", json());
  connection.run(
      "UPDATE letters SET another_because = iif(action = ?2 AND due = ?3, '',"
      " 'another next step was signed'), entry = ?4 WHERE exam = ?1",
      text_at(body, "exam"), text_at(body, "action"), due.is_object() ? text_at(due, "from") : std::string(),
      entry);
}

// Also where a moved date or a closed recall made a letter wrong before: when that is taken back, there is
// still no signature under what it told.
void derive_letters_superseded(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run("UPDATE letters SET another_because = ?4, entry = ?1 WHERE exam = ?2 OR advice = ?3", entry,
                 text_at(body, "exam"), body.at("advice").get<std::uint64_t>(), text_at(body, "because"));
}

void derive_letters_of_recall(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  const std::int64_t recall = recall_number(text_at(body, "recall"));
  // A signature compares letters itself, before it moves the recall.
  if (kind == Kind::recall_redated && !body.contains("advice"))
    compare_with_date(connection, entry, recall, text_at(body, "due"));
  if (kind == Kind::recall_closed) mark(connection, entry, recall, why_closed(connection, recall, body));
  if (kind == Kind::recall_reopened) {
    connection.run(
        "UPDATE letters SET another_because = '', entry = ?1 WHERE another_because LIKE ?3 || '%' AND exam ="
        " (SELECT exam FROM recalls WHERE number = ?2)",
        entry, recall, closing_words(body));
  }
}

}  // namespace ledger
