// The order in which recalls are read along their lanes, against the same recalls sorted by SQL.

#include "database/recall_order.h"

#include <catch2/catch.hpp>
#include <functional>
#include <random>
#include <sstream>

#include "database/lane.h"
#include "ledger/lists.h"
#include "ledger/long_lists.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/temporary_ledger.h"
#include "support/verified.h"

using namespace support;
namespace {

using Numbers = std::vector<std::uint64_t>;

using Read = std::function<engine::Result<std::vector<ledger::RecallLine>>(const ledger::Page&)>;

Numbers numbers_of(const Read& read, const ledger::Page& page) {
  Numbers numbers;
  for (const ledger::RecallLine& line : value_of(read(page)))
    numbers.push_back(std::stoull(line.recall.substr(1)));
  return numbers;
}

/// Recalls of every kind: intervals of a day to eleven years, due three years to either side, some with days
/// not ready, some ended. Written past the ledger, all of one examination: the order looks at nothing else.
void invent_recalls(TemporaryLedger& unit, int count, unsigned seed) {
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const std::string person = ask_sql(unit.path, "SELECT person FROM people");
  std::mt19937 dice(seed);
  const auto roll = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(dice); };
  constexpr int usual_intervals[] = {61, 184, 365, 366, 1095, 1096, 1826, 3653};
  std::ostringstream sql;
  sql << "BEGIN;";
  for (int i = 1; i <= count; ++i) {
    const int interval = roll(0, 9) == 0 ? roll(1, 4000) : usual_intervals[roll(0, 7)];
    const bool paused = roll(0, 9) == 0;
    const int grace = paused ? 42 + roll(0, 400) : roll(0, 9) == 0 ? 56 : 42;
    const std::string due = "date('2026-03-20', '" + std::to_string(roll(-1100, 1100)) + " days')";
    sql << "INSERT INTO recalls (number, person, exam, advice, action, ruleset, rule, clinician, risk, "
           "state, open,"
           " due, due_to, late_on, interval_days, under_review, later_steps, counted_from, answered_by, "
           "attempts,"
           " last_attempt, means, owner, vetted_by, vetted_on, vetted_result, lane, entry) SELECT "
        << i << ", '" << person << "', 'E1', 1, 'surveillance colonoscopy', '', '', '', " << roll(0, 4)
        << ", " << (roll(0, 2) == 0 ? "'vetted'" : "'opened'") << ", " << (roll(0, 9) == 0 ? 0 : 1)
        << ", due, due, date(due, '" << grace << " days'), " << interval
        << ", 0, '[]', 'null', '', 0, '', '', '', '', '', '', 0, 1 FROM (SELECT " << due << " AS due);";
    if (paused) sql << "INSERT INTO not_ready VALUES (" << i << ", 1, '2026-01-01', '2026-02-01');";
  }
  run_sql(unit.path, sql.str() + "UPDATE recalls SET lane = " LEDGER_LANE "; COMMIT");
}

/// By the book: whole, sorted.
Numbers sorted(const std::string& path, const std::string& today, const std::string& wanted) {
  std::istringstream text(
      ask_sql(path, "SELECT group_concat(number, ' ') FROM (SELECT number FROM recalls WHERE open = 1 AND " +
                        wanted + " ORDER BY risk, (julianday('" + today +
                        "') - julianday(due)) / interval_days DESC, due, number)"));
  Numbers numbers;
  for (std::uint64_t number = 0; text >> number;) numbers.push_back(number);
  return numbers;
}

Numbers part_of(const Numbers& all, std::size_t first, std::size_t count) {
  const auto begin = all.begin() + static_cast<std::ptrdiff_t>(std::min(first, all.size()));
  return {begin, begin + std::min<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(count), all.end() - begin)};
}

}  // namespace

TEST_CASE("recalls read along their lanes come in the order of the list", "[lists]") {
  TemporaryLedger unit;
  invent_recalls(unit, 3000, 7);
  const std::string today = GENERATE("2026-03-20", "2024-02-29", "2029-12-31");
  struct Row {
    const char* because;
    Read read;
    std::string wanted;
  };
  const engine::Date now = day(today);
  const auto due = [&](const ledger::DueRange& range) {
    return
        [&unit, now, range](const ledger::Page& page) { return ledger::due(unit.ledger, range, now, page); };
  };
  const std::string soon = "date('" + today + "', '42 days')";
  for (const Row& row :
       {Row{"due", due({}), "due <= " + soon + " AND late_on >= '" + today + "'"},
        Row{"due in a range", due({day("2025-01-01"), day("2027-06-30")}),
            "due BETWEEN '2025-01-01' AND '2027-06-30'"},
        Row{"due up to a day", due({{}, day("2027-06-30")}),
            "due <= '2027-06-30' AND late_on >= '" + today + "'"},
        Row{"overdue", [&](const ledger::Page& page) { return ledger::overdue(unit.ledger, now, page); },
            "late_on < '" + today + "'"},
        Row{"to vet", [&](const ledger::Page& page) { return ledger::to_vet(unit.ledger, {}, now, page); },
            "state = 'opened' AND due <= " + soon}}) {
    INFO(row.because << " on " << today);
    const Numbers all = sorted(unit.path, today, row.wanted);
    CHECK(numbers_of(row.read, {}) == all);
    for (const std::size_t first : std::initializer_list<std::size_t>{0, 1, 49, 700, 5000}) {
      CHECK(numbers_of(row.read, {first, 50}) == part_of(all, first, 50));
    }
  }
}

TEST_CASE("recalls that are equally late come by due date, then by number", "[lists]") {
  TemporaryLedger unit;
  invent_recalls(unit, 200, 3);
  run_sql(unit.path,
          "UPDATE recalls SET risk = 4, open = 1, due = '2026-03-20', late_on = '2026-05-01', interval_days "
          "= 365 +"
          " number % 2; UPDATE recalls SET lane = " LEDGER_LANE);
  Numbers all(200);
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i + 1;
  CHECK(numbers_of(
            [&](const ledger::Page& page) { return ledger::due(unit.ledger, {}, day("2026-03-20"), page); },
            {}) == all);
}

TEST_CASE("a list read line by line is of the moment in which it was begun", "[lists]") {
  TemporaryLedger unit;
  invent_recalls(unit, 2000, 5);
  const engine::Date now = day("2026-03-20");
  const ledger::DueRange range{day("2025-01-01"), day("2027-06-30")};
  const auto reader = value_of(ledger::Ledger::open(unit.path, ledger::Ledger::Access::read));
  const auto whole = [&](ledger::RecallLines lines) {
    Numbers numbers;
    while (const auto line = value_of(lines.next())) {
      numbers.push_back(std::stoull(line->recall.substr(1)));
      if (numbers.size() == 20) run_sql(unit.path, "UPDATE recalls SET open = 0, state = 'closed'");
    }
    run_sql(unit.path, "UPDATE recalls SET open = 1, state = 'opened'");
    return numbers;
  };
  run_sql(unit.path, "UPDATE recalls SET open = 1, state = 'opened'");
  const auto due = [&](const ledger::Page& page) { return ledger::due(unit.ledger, range, now, page); };
  const auto overdue = [&](const ledger::Page& page) { return ledger::overdue(unit.ledger, now, page); };
  const auto to_vet = [&](const ledger::Page& page) { return ledger::to_vet(unit.ledger, {}, now, page); };
  CHECK(numbers_of(due, {}).size() > 100);
  CHECK(whole(value_of(ledger::lines_due(reader, range, now))) == numbers_of(due, {}));
  CHECK(whole(value_of(ledger::lines_overdue(reader, now))) == numbers_of(overdue, {}));
  CHECK(whole(value_of(ledger::lines_to_vet(reader, {}, now))) == numbers_of(to_vet, {}));
}

TEST_CASE("a list of which a page is read has as many recalls as all of it", "[lists]") {
  TemporaryLedger unit;
  invent_recalls(unit, 2000, 11);
  const engine::Date now = day("2026-03-20");
  const ledger::DueRange range{day("2025-01-01"), day("2027-06-30")};
  CHECK(value_of(ledger::count_due(unit.ledger, {}, now)) ==
        value_of(ledger::due(unit.ledger, {}, now, {})).size());
  CHECK(value_of(ledger::count_due(unit.ledger, range, now)) ==
        value_of(ledger::due(unit.ledger, range, now, {})).size());
  CHECK(value_of(ledger::count_overdue(unit.ledger, now)) ==
        value_of(ledger::overdue(unit.ledger, now, {})).size());
  CHECK(value_of(ledger::count_to_vet(unit.ledger, {}, now)) ==
        value_of(ledger::to_vet(unit.ledger, {}, now, {})).size());
}
