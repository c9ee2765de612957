// The lists of recalls. The long ones are read along their lanes (recall_order.h); the others are sorted, and
// walk a partial index of the open recalls.

#include "database/connection.h"
#include "database/lines.h"
#include "database/no_reply.h"
#include "database/recall_order.h"
#include "database/store.h"
#include "database/to_close.h"
#include "database/transaction.h"
#include "database/view.h"
#include "late_clock.h"
#include "ledger/lists.h"
#include "ledger/long_lists.h"
#include "ledger/protocol.h"

namespace ledger {

using engine::Date;
using engine::Done;
using engine::Result;

namespace {

// `?1` is today. Lateness in proportion to the interval: days after the due date, by the days of the
// interval.
#define RISK_FIRST \
  " ORDER BY r.risk, (julianday(?1) - julianday(r.due)) / r.interval_days DESC, r.due, r.number"

#define A_LINE                                                                                         \
  "SELECT " LEDGER_PERSON_COLUMNS ", " LEDGER_EXAMINATION_COLUMNS                                      \
  ", r.number, r.action, r.ruleset, r.rule, r.clinician, r.risk, r.state, r.due, r.due_to, r.late_on," \
  " r.under_review, r.interval_days FROM "
#define OF_PERSON_AND_EXAMINATION \
  " JOIN people AS p ON p.person = r.person JOIN examinations AS x ON x.exam = r.exam"

// The page is chosen among the recalls alone, and only its lines are filled in: sorting whole lines would
// read every person and examination.
#define RECALL_LINES A_LINE "(SELECT r.number FROM recalls AS r WHERE r.open = 1 AND "
#define FILLED_IN                                                   \
  RISK_FIRST                                                        \
  " LIMIT ?2 OFFSET ?3) AS chosen JOIN recalls AS r ON r.number = " \
  "chosen.number" OF_PERSON_AND_EXAMINATION RISK_FIRST

RecallLine line_of(const Row& row, const Date& today) {
  int column = person_columns + examination_columns;
  RecallLine line;
  line.person = person_of(row, 0);
  line.examination = examination_of(row, person_columns);
  line.recall = "R" + row.text(column++);
  line.action = row.text(column++);
  line.ruleset = row.text(column++);
  line.rule = row.text(column++);
  line.clinician = row.text(column++);
  line.risk = static_cast<Risk>(row.number(column++));
  line.state = row.text(column++);
  line.due = date_of(row.text(column++));
  line.due_to = date_of(row.text(column++));
  line.late_on = date_of(row.text(column++));
  line.under_review = row.number(column++) != 0;
  line.interval_days = row.number(column);
  line.days_after_due = days_between(line.due, today);
  line.days_late = std::max<std::int64_t>(0, days_between(line.late_on, today));
  return line;
}

template <class... Values>
Result<std::vector<RecallLine>> lines(const Ledger& ledger, const char* sql, const Date& today,
                                      const Page& page, const Values&... values) {
  std::vector<RecallLine> found;
  const std::int64_t limit = page.limit == 0 ? -1 : static_cast<std::int64_t>(page.limit);
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    transaction.connection().each(
        sql, [&](const Row& row) { found.push_back(line_of(row, today)); }, engine::text_of(today), limit,
        page.offset, values...);
    return Done{};
  });
  if (!done) return done.errors();
  return found;
}

std::optional<RecallLine> next_line(Connection& connection, RecallOrder& order, const Date& today) {
  while (const auto number = order.next()) {
    if (auto line = connection.first(
            A_LINE "recalls AS r" OF_PERSON_AND_EXAMINATION " WHERE r.number = ?",
            [&](const Row& row) { return line_of(row, today); }, *number))
      return line;
  }
  return std::nullopt;
}

Result<std::vector<RecallLine>> in_order(const Ledger& ledger, const RecallSelection& selection,
                                         const Date& today, const Page& page) {
  return viewed<std::vector<RecallLine>>(ledger, [&](Connection& connection, auto& found) {
    RecallOrder order(connection, selection, today);
    for (std::uint64_t i = 0; i < page.offset; ++i) {
      if (!order.next()) return;
    }
    while (page.limit == 0 || found.size() < page.limit) {
      auto line = next_line(connection, order, today);
      if (!line) return;
      found.push_back(std::move(*line));
    }
  });
}

RecallSelection selection_due(const DueRange& range, const Date& today) {
  RecallSelection selection;
  selection.due_to = engine::text_of(range.to.value_or(plus_days(today, late_after_days)));
  if (range.from)
    selection.due_from = engine::text_of(*range.from);
  else
    selection.late = false;
  return selection;
}

RecallSelection selection_overdue() {
  RecallSelection selection;
  selection.late = true;
  return selection;
}

RecallSelection selection_to_vet(const std::optional<Date>& to, const Date& today) {
  RecallSelection selection;
  selection.due_to = engine::text_of(to.value_or(plus_days(today, late_after_days)));
  selection.unvetted = true;
  return selection;
}

Result<std::uint64_t> counted(const Ledger& ledger, const RecallSelection& selection, const Date& today) {
  return viewed<std::uint64_t>(ledger, [&](Connection& connection, std::uint64_t& count) {
    count = count_of(connection, selection, today);
  });
}

}  // namespace

struct RecallLines::State {
  Moment moment;
  Store& store;
  std::optional<RecallOrder> order;
  Date today;
};

RecallLines::RecallLines(std::unique_ptr<State> state) : state_(std::move(state)) {}
RecallLines::RecallLines(RecallLines&&) noexcept = default;
RecallLines::~RecallLines() = default;

Result<RecallLines> RecallLines::open(const Ledger& ledger, const RecallSelection& selection,
                                      const Date& today) {
  auto moment = ledger.moment();
  if (!moment) return moment.errors();
  auto state = std::make_unique<State>(State{std::move(*moment), ledger.store(), {}, today});
  const auto begun = state->store.read([&](Transaction& transaction) -> Result<Done> {
    state->order.emplace(transaction.connection(), selection, today);
    return Done{};
  });
  if (!begun) return begun.errors();
  return RecallLines(std::move(state));
}

Result<std::optional<RecallLine>> RecallLines::next() {
  std::optional<RecallLine> line;
  const auto done = state_->store.read([&](Transaction& transaction) -> Result<Done> {
    line = next_line(transaction.connection(), *state_->order, state_->today);
    return Done{};
  });
  if (!done) return done.errors();
  return line;
}

Result<RecallLines> lines_due(const Ledger& ledger, const DueRange& range, const Date& today) {
  return RecallLines::open(ledger, selection_due(range, today), today);
}

Result<RecallLines> lines_overdue(const Ledger& ledger, const Date& today) {
  return RecallLines::open(ledger, selection_overdue(), today);
}

Result<RecallLines> lines_to_vet(const Ledger& ledger, const std::optional<Date>& to, const Date& today) {
  return RecallLines::open(ledger, selection_to_vet(to, today), today);
}

Result<std::uint64_t> count_due(const Ledger& ledger, const DueRange& range, const Date& today) {
  return counted(ledger, selection_due(range, today), today);
}

Result<std::uint64_t> count_overdue(const Ledger& ledger, const Date& today) {
  return counted(ledger, selection_overdue(), today);
}

Result<std::uint64_t> count_to_vet(const Ledger& ledger, const std::optional<Date>& to, const Date& today) {
  return counted(ledger, selection_to_vet(to, today), today);
}

Result<std::vector<RecallLine>> due(const Ledger& ledger, const DueRange& range, const Date& today,
                                    const Page& page) {
  return in_order(ledger, selection_due(range, today), today, page);
}

Result<std::vector<RecallLine>> overdue(const Ledger& ledger, const Date& today, const Page& page) {
  return in_order(ledger, selection_overdue(), today, page);
}

Result<std::vector<RecallLine>> to_close(const Ledger& ledger, const Date& today, const Page& page) {
  const auto protocol = protocol_in_force(ledger, today);
  if (!protocol) return protocol.errors();
  const std::int64_t age_limit = (*protocol ? (*protocol)->terms : ProtocolTerms{}).age_limit;
  return lines(ledger, RECALL_LINES LEDGER_TO_CLOSE("r.number", "?4") FILLED_IN, today, page, age_limit);
}

Result<std::vector<RecallLine>> to_vet(const Ledger& ledger, const std::optional<Date>& to, const Date& today,
                                       const Page& page) {
  return in_order(ledger, selection_to_vet(to, today), today, page);
}

Result<std::vector<RecallLine>> no_reply(const Ledger& ledger, const Date& today, const Page& page) {
  return lines(ledger, RECALL_LINES LEDGER_NO_REPLY("r.") FILLED_IN, today, page);
}

}  // namespace ledger
