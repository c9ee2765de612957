// The due list of a large unit: its first page, beside a bare SQL query over an index in the very order of
// that day, which gives the same rows.

#include <sqlite3.h>

#include <stdexcept>

#include "bench/bare_sqlite.h"
#include "bench/bench.h"
#include "bench/large_unit.h"
#include "bench/memory.h"
#include "ledger/lists.h"
#include "ledger/long_lists.h"
#include "ledger/particulars.h"

namespace bench {

namespace {

constexpr std::uint64_t page = 50;

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

/// As a printed list reads them: line by line, with all that stands on a line.
std::uint64_t read_all(const ledger::Ledger& ledger, const ledger::DueRange& range) {
  auto lines = ledger::lines_due(ledger, range, unit_day);
  std::uint64_t rows = 0;
  for (auto line = lines->next(); *line; line = lines->next()) {
    keep(ledger::particulars_of(ledger, **line));
    ++rows;
  }
  if (rows != *ledger::count_due(ledger, range, unit_day)) throw std::runtime_error("lines are missing");
  return rows;
}

void measure_whole(const char* name, const ledger::Ledger& ledger, const ledger::DueRange& range) {
  const PeakMemory memory;
  std::uint64_t rows = 0;
  const double time = cpu_seconds([&] { rows = read_all(ledger, range); });
  print(std::string(name) + ", all of it: rows", static_cast<double>(rows), "");
  print("  for each", time / static_cast<double>(rows) * 1e6, "us");
  print("  memory at most", memory.so_far(), "MB");
}

}  // namespace

void measure_due_list(const ledger::Ledger& ledger) {
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
