// The due list of a large unit: its first page, beside a bare SQL query over an index in the very order of
// that day, which gives the same rows.

#include <sqlite3.h>

#include <stdexcept>
#include <utility>

#include "bench/bare_sqlite.h"
#include "bench/bench.h"
#include "bench/large_unit.h"
#include "bench/memory.h"
#include "ledger/lists.h"

namespace bench {

namespace {

constexpr std::uint64_t page = 50;

/// Every open recall as often as gives `recalls`, each some days away from the other: the lists read nothing
/// but the derived tables, and a million of real entries take an hour.
void multiply(const ledger::Ledger& ledger, const std::string& path, int recalls) {
  const int times = recalls / static_cast<int>(ledger::sweep(ledger, unit_day)->open);
  BareSqlite(ledger.path()).run(("VACUUM INTO '" + path + "'").c_str());
  BareSqlite(path).run(
      ("WITH RECURSIVE copies (copy) AS (SELECT 1 UNION ALL SELECT copy + 1 FROM copies WHERE copy < " +
       std::to_string(times) +
       ") INSERT INTO recalls (number, person, exam, advice, action, ruleset, rule, clinician,"
       " risk, state, open, due, due_to, late_on, interval_days, under_review, signed, later_steps, "
       "counted_from,"
       " follows, answered_by, attempts, last_attempt, invited, means, owner, vetted_by, vetted_on, "
       "vetted_result,"
       " age_at_due, lane, entry) SELECT number + copy * 100000000, person, exam, advice, action, ruleset, "
       "rule,"
       " clinician, risk, state, open, date(due, (copy % 29) || ' days'), date(due_to, (copy % 29) || ' "
       "days'),"
       " date(late_on, (copy % 29) || ' days'), interval_days, under_review, signed, later_steps, "
       "counted_from,"
       " follows, answered_by, attempts, last_attempt, invited, means, owner, vetted_by, vetted_on, "
       "vetted_result,"
       " age_at_due, lane, entry FROM recalls, copies WHERE open = 1 AND copy < " +
       std::to_string(times))
          .c_str());
}

/// All open recalls with a due date in the range, in the order of the list, by an index that is made for the
/// day.
constexpr const char* order_for_the_day =
    "CREATE TEMP TABLE in_order (risk INTEGER, lateness REAL, due TEXT, number INTEGER);"
    "INSERT INTO in_order SELECT risk, (julianday('2026-03-20') - julianday(due)) / interval_days, due, "
    "number"
    " FROM recalls WHERE open = 1;"
    "CREATE INDEX in_order_first ON in_order (risk, lateness DESC, due, number)";

constexpr const char* first_page =
    "SELECT p.person, p.name, p.birth_date, p.sex, p.identifiers, p.needs, p.status, x.exam, x.date, x.place,"
    " x.endoscopist, x.findings, r.number, r.action, r.ruleset, r.rule, r.clinician, r.risk, r.state, r.due, "
    "r.due_to,"
    " r.late_on, r.under_review, r.interval_days FROM in_order AS o JOIN recalls AS r ON r.number = o.number"
    " JOIN people AS p ON p.person = r.person JOIN examinations AS x ON x.exam = r.exam"
    " ORDER BY o.risk, o.lateness DESC, o.due, o.number LIMIT 50";

std::vector<std::string> bare_page(sqlite3_stmt* query) {
  std::vector<std::string> recalls;
  while (sqlite3_step(query) == SQLITE_ROW) {
    for (int i = 0; i < sqlite3_column_count(query); ++i) keep(sqlite3_column_text(query, i));
    recalls.push_back("R" + std::string(reinterpret_cast<const char*>(sqlite3_column_text(query, 12))));
  }
  sqlite3_reset(query);
  return recalls;
}

std::vector<std::string> our_page(const ledger::Ledger& ledger, const ledger::DueRange& range) {
  std::vector<std::string> recalls;
  const auto lines = ledger::due(ledger, range, unit_day, {0, page});
  if (!lines) throw std::runtime_error("due");
  for (const ledger::RecallLine& line : *lines) recalls.push_back(line.recall);
  return recalls;
}

void measure_whole(const char* name, const ledger::Ledger& ledger, const ledger::DueRange& range) {
  const PeakMemory memory;
  std::size_t rows = 0;
  const double time = cpu_seconds([&] { rows = ledger::due(ledger, range, unit_day, {})->size(); });
  print(std::string(name) + ", all of it: rows", static_cast<double>(rows), "");
  print("  for each", time / static_cast<double>(rows) * 1e6, "us");
  print("  memory at most", memory.so_far(), "MB");
}

}  // namespace

void measure_due_list(const std::string& folder, const ledger::Ledger& unit, int recalls) {
  const std::string path = folder + "/many.ledger";
  multiply(unit, path, recalls);
  const ledger::Ledger ledger = std::move(*ledger::Ledger::open(path, ledger::Ledger::Access::read));
  const ledger::DueRange all{engine::Date{2020, 1, 1}, engine::Date{2040, 1, 1}};
  BareSqlite bare(ledger.path());
  bare.run(order_for_the_day);
  const Statement query = bare.prepare(first_page);
  if (bare_page(query.get()) != our_page(ledger, all))
    throw std::runtime_error("the two first pages are not the same");
  const double theirs = cpu_nanoseconds([&] { keep(bare_page(query.get())); });
  const double ours = cpu_nanoseconds([&] { keep(our_page(ledger, all)); });
  print("open recalls", static_cast<double>(ledger::sweep(ledger, unit_day)->open), "");
  print("first page of all that are open", ours / 1e6, "ms");
  print("  a bare indexed SQL query, the same rows", theirs / 1e6, "ms");
  print("  our time against it", ours / theirs, "times");
  print("first page of `due`", cpu_nanoseconds([&] { keep(our_page(ledger, {})); }) / 1e6, "ms");
  print("first page of `overdue`", cpu_nanoseconds([&] {
                                     keep(ledger::overdue(ledger, unit_day, {0, page}));
                                   }) / 1e6,
        "ms");
  print("first page of `to-vet`", cpu_nanoseconds([&] {
                                    keep(ledger::to_vet(ledger, {}, unit_day, {0, page}));
                                  }) / 1e6,
        "ms");
  print("counts of all lists", cpu_nanoseconds([&] { keep(ledger::sweep(ledger, unit_day)); }) / 1e6, "ms");
  measure_whole("due", ledger, {});
  measure_whole("all that are open", ledger, all);
}

}  // namespace bench
