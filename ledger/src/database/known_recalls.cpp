#include "database/known_recalls.h"

#include <charconv>

#include "database/connection.h"
#include "database/lines.h"

namespace ledger {

namespace {

#define COLUMNS                                                                                 \
  "SELECT r.number, r.person, r.exam, r.state, r.due, r.due_to, r.late_on, x.date, r.attempts," \
  " r.advice, r.signed, r.action, r.ruleset, r.clinician, r.later_steps, r.counted_from,"       \
  " r.answered_by, r.follows, r.vetted_on FROM recalls AS r JOIN examinations AS x ON x.exam = r.exam"

KnownRecall recall_from(const Row& row) {
  KnownRecall recall{row.count(0),
                     row.text(1),
                     row.text(2),
                     recall_state_of(row.text(3)).value(),
                     date_of(row.text(4)),
                     date_of(row.text(5)),
                     date_of(row.text(6)),
                     date_of(row.text(7)),
                     row.number(8),
                     !row.text(18).empty(),
                     row.count(9),
                     std::nullopt,
                     row.text(11),
                     row.text(12),
                     row.text(13),
                     nlohmann::json::parse(row.text(14)),
                     nlohmann::json::parse(row.text(15)),
                     row.text(16),
                     std::nullopt};
  if (!row.is_null(10)) recall.signature = row.count(10);
  if (!row.is_null(17)) recall.follows = row.count(17);
  return recall;
}

}  // namespace

std::optional<KnownRecall> find_recall(Transaction& transaction, const std::string& recall) {
  std::int64_t number = 0;
  const char* end = recall.data() + recall.size();
  if (recall.size() < 2 || recall.front() != 'R') return std::nullopt;
  const auto [stop, fault] = std::from_chars(recall.data() + 1, end, number);
  if (fault != std::errc{} || stop != end) return std::nullopt;
  return transaction.connection().first(COLUMNS " WHERE r.number = ?", recall_from, number);
}

std::vector<KnownRecall> recalls_of(Transaction& transaction, const std::string& person) {
  std::vector<KnownRecall> recalls;
  transaction.connection().each(
      COLUMNS " WHERE r.person = ? ORDER BY r.number",
      [&](const Row& row) { recalls.push_back(recall_from(row)); }, person);
  return recalls;
}

std::vector<KnownRecall> unended_recalls_of(Transaction& transaction, const std::string& person) {
  std::vector<KnownRecall> recalls = recalls_of(transaction, person);
  std::erase_if(recalls, [](const KnownRecall& recall) { return recall.ended(); });
  return recalls;
}

std::vector<NotReady> not_ready_of(Transaction& transaction, std::uint64_t recall) {
  std::vector<NotReady> periods;
  transaction.connection().each(
      "SELECT first, last FROM not_ready WHERE recall = ? ORDER BY entry",
      [&](const Row& row) {
        periods.push_back({date_of(row.text(0)), date_of(row.text(1))});
      },
      recall);
  return periods;
}

#undef COLUMNS

}  // namespace ledger
