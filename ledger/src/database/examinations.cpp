#include "database/examinations.h"

#include "database/connection.h"

namespace ledger {

namespace {

#define COLUMNS "exam, person, date, recorded, advice, advice_state, outcome, risk"

KnownExamination examination_from(const Row& row) {
  KnownExamination examination{row.text(0),  row.text(1), row.text(2), row.count(3),
                               std::nullopt, row.text(5), row.text(6), row.number(7)};
  if (!row.is_null(4)) examination.advice = row.count(4);
  return examination;
}

}  // namespace

std::optional<KnownExamination> find_examination(Transaction& transaction, const std::string& exam) {
  return transaction.connection().first("SELECT " COLUMNS " FROM examinations WHERE exam = ?",
                                        examination_from, exam);
}

std::uint64_t signature_of(Transaction& transaction, const std::string& exam) {
  return transaction.connection()
      .first(
          "SELECT max(e.sequence) FROM examinations AS x JOIN history AS h ON h.person = x.person"
          " JOIN entries AS e ON e.sequence = h.entry WHERE x.exam = ?1 AND e.subject = 'examination:' || ?1"
          " AND e.kind IN ('advice signed', 'advice overridden')",
          [](const Row& row) { return row.count(0); }, exam)
      .value();
}

std::vector<KnownExamination> examinations_of(Transaction& transaction, const std::string& person) {
  std::vector<KnownExamination> found;
  transaction.connection().each(
      "SELECT " COLUMNS " FROM examinations WHERE person = ? ORDER BY date, exam",
      [&](const Row& row) { found.push_back(examination_from(row)); }, person);
  return found;
}

std::optional<std::uint64_t> version_of(Transaction& transaction, const std::string& exam,
                                        const std::string& content) {
  return transaction.connection().first(
      "SELECT entry FROM versions WHERE exam = ? AND content = ?",
      [](const Row& row) { return row.count(0); }, exam, content);
}

std::vector<std::uint64_t> replaced_versions_of(Transaction& transaction,
                                                const KnownExamination& examination) {
  std::vector<std::uint64_t> found;
  transaction.connection().each(
      "SELECT entry FROM versions WHERE exam = ? AND entry < ? ORDER BY entry DESC",
      [&](const Row& row) { found.push_back(row.count(0)); }, examination.exam, examination.recorded);
  return found;
}

std::vector<EnteredHistology> histologies_of(Transaction& transaction, const std::string& exam) {
  std::vector<EnteredHistology> found;
  transaction.connection().each(
      "SELECT lesion, histology, entry FROM histologies WHERE exam = ? ORDER BY lesion",
      [&](const Row& row) {
        found.push_back({row.text(0), nlohmann::json::parse(row.text(1)), row.count(2)});
      },
      exam);
  return found;
}

std::vector<std::string> examinations_with(Transaction& transaction, const std::string& accession) {
  std::vector<std::string> found;
  transaction.connection().each(
      "SELECT DISTINCT exam FROM pots WHERE accession = ? AND accession <> '' ORDER BY exam",
      [&](const Row& row) { found.push_back(row.text(0)); }, accession);
  return found;
}

#undef COLUMNS

}  // namespace ledger
