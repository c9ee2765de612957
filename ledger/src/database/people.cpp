#include "database/people.h"

#include <algorithm>
#include <cctype>

#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/lines.h"
#include "database/store.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;

namespace {

struct Holder {
  std::string system, person;
};

std::vector<Holder> holders_of(Transaction& transaction, const std::string& value) {
  std::vector<Holder> holders;
  transaction.connection().each(
      "SELECT i.system, p.survivor FROM identifiers AS i JOIN people AS p ON p.person = i.person"
      " WHERE i.value = ? ORDER BY i.system",
      [&](const Row& row) {
        holders.push_back({row.text(0), row.text(1)});
      },
      value);
  return holders;
}

std::optional<PersonLine> line_of(Transaction& transaction, const std::string& person) {
  return transaction.connection().first(
      "SELECT " LEDGER_PERSON_COLUMNS
      " FROM people AS p WHERE p.person = (SELECT survivor FROM"
      " people WHERE person = ?)",
      [](const Row& row) { return person_of(row, 0); }, person);
}

Error several(const std::string& text, const std::vector<Holder>& holders) {
  std::string help = "say which system, as in `" + holders.front().system + ":" + text + "`; it is known in ";
  for (std::size_t i = 0; i < holders.size(); ++i) help += (i == 0 ? "`" : ", `") + holders[i].system + "`";
  return {"several_people", "`" + text + "` is an identifier of more than one person", {}, help};
}

}  // namespace

std::string without_spaces(std::string_view text) {
  std::string out;
  std::copy_if(text.begin(), text.end(), std::back_inserter(out),
               [](unsigned char c) { return std::isspace(c) == 0; });
  return out;
}

std::optional<std::string> person_with(Transaction& transaction, const std::string& system,
                                       const std::string& value) {
  return transaction.connection().first(
      "SELECT p.survivor FROM identifiers AS i JOIN people AS p ON p.person = i.person"
      " WHERE i.value = ? AND i.system = ?",
      [](const Row& row) { return row.text(0); }, without_spaces(value), system);
}

std::optional<std::string> number_with(Transaction& transaction, const std::string& system,
                                       const std::string& value) {
  return transaction.connection().first(
      "SELECT person FROM identifiers WHERE value = ? AND system = ?",
      [](const Row& row) { return row.text(0); }, without_spaces(value), system);
}

std::optional<KnownNumber> find_number(Transaction& transaction, const std::string& person) {
  return transaction.connection().first(
      "SELECT person, survivor, merged_into, coalesce(merge, 0) FROM people WHERE person = ?",
      [](const Row& row) {
        return KnownNumber{row.text(0), row.text(1), row.text(2), row.count(3)};
      },
      person);
}

std::string number_named(Transaction& transaction, const std::string& text, const std::string& person) {
  if (const auto number = find_number(transaction, text)) return number->person;
  const auto colon = text.find(':');
  if (colon != std::string::npos) {
    if (const auto number = number_with(transaction, text.substr(0, colon), text.substr(colon + 1)))
      return *number;
  }
  std::vector<std::string> numbers;
  transaction.connection().each(
      "SELECT DISTINCT person FROM identifiers WHERE value = ?",
      [&](const Row& row) { numbers.push_back(row.text(0)); }, without_spaces(text));
  return numbers.size() == 1 ? numbers.front() : person;
}

std::vector<std::string> numbers_with_status(Transaction& transaction, const std::string& person,
                                             std::string_view status) {
  std::vector<std::string> numbers;
  transaction.connection().each(
      "SELECT person FROM people WHERE (person = ?1 OR (merged_into <> '' AND survivor = ?1))"
      " AND own_status LIKE ?2 || '%' ORDER BY described",
      [&](const Row& row) { numbers.push_back(row.text(0)); }, person, status);
  return numbers;
}

std::uint64_t reported_at(Transaction& transaction, const std::string& person, std::string_view status) {
  return transaction.connection()
      .first(
          "SELECT max(h.entry) FROM history AS h JOIN entries AS e ON e.sequence = h.entry"
          " WHERE h.person = ? AND e.kind = 'person ' || ?",
          [](const Row& row) { return row.count(0); }, person, status)
      .value_or(0);
}

std::vector<std::string> recalls_closed_after(Transaction& transaction, const std::string& person,
                                              std::uint64_t entry) {
  std::vector<std::string> recalls;
  transaction.connection().each(
      "SELECT r.number FROM recalls AS r WHERE r.person = ?1 AND r.state = 'closed' AND EXISTS"
      " (SELECT 1 FROM history AS h JOIN entries AS e ON e.sequence = h.entry WHERE h.person = ?1"
      " AND h.entry > ?2 AND e.kind = 'recall closed' AND e.subject = 'recall:R' || r.number)"
      " ORDER BY r.number",
      [&](const Row& row) { recalls.push_back("R" + row.text(0)); }, person, entry);
  return recalls;
}

nlohmann::json description_of(Transaction& transaction, const std::string& person) {
  const auto described = transaction.connection().first(
      "SELECT described FROM people WHERE person = ?", [](const Row& row) { return row.count(0); }, person);
  return transaction.body(described.value());
}

Result<PersonLine> find_person_in(Transaction& transaction, const std::string& text) {
  if (auto line = line_of(transaction, text)) return *line;
  const auto colon = text.find(':');
  if (colon != std::string::npos) {
    const auto person = person_with(transaction, text.substr(0, colon), text.substr(colon + 1));
    if (person) return line_of(transaction, *person).value();
  }
  const auto holders = holders_of(transaction, without_spaces(text));
  if (holders.empty()) {
    return Error{
        "unknown_person",
        "no person is known as `" + text + "`",
        {},
        "give an identifier as it stands on a record, with or without its system: `nhs-number:9990000018`"};
  }
  const bool one = std::all_of(holders.begin(), holders.end(),
                               [&](const Holder& h) { return h.person == holders.front().person; });
  if (!one) return several(text, holders);
  return line_of(transaction, holders.front().person).value();
}

Result<PersonLine> find_person(const Ledger& ledger, const std::string& text) {
  PersonLine line;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    auto found = find_person_in(transaction, text);
    if (!found) return found.errors();
    line = std::move(*found);
    return Done{};
  });
  if (!done) return done.errors();
  return line;
}

Result<PatientHistory> history(const Ledger& ledger, const std::string& text) {
  PatientHistory history;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    auto found = find_person_in(transaction, text);
    if (!found) return found.errors();
    history.person = std::move(*found);
    transaction.connection().each(
        "SELECT e.sequence, e.at, e.actor, e.kind, e.subject, e.body, e.previous, e.hash FROM history AS h"
        " JOIN entries AS e ON e.sequence = h.entry WHERE h.person = ? ORDER BY h.entry",
        [&](const Row& row) { history.entries.push_back(entry_of(row)); }, history.person.person);
    return Done{};
  });
  if (!done) return done.errors();
  return history;
}

}  // namespace ledger
