#include "report/work_list_rows.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "cli/report/given_rows.h"
#include "engine/canonical.h"
#include "failure.h"
#include "report/formats.h"
#include "support/printed.h"

namespace {

cli::WorkListRow a_row(int number) {
  return {{number, number % 2 == 0 ? "even" : "odd"}, "row " + std::to_string(number), {}};
}

/// Rows 1 to `made` of a list of `counted`, made anew each time; `taken` says how many were, over all times.
cli::Rows rows_to(int made, std::uint64_t counted, int& taken) {
  return {counted, [made, &taken](const cli::Rows::Visit& visit) {
            for (int i = 1; i <= made; ++i) {
              ++taken;
              if (!visit(a_row(i))) return;
            }
          }};
}

std::string numbers_of(const cli::Rows& rows) {
  std::string numbers;
  rows.each([&](const cli::WorkListRow& row) { numbers += row.cells.at(0).dump() + " "; });
  return numbers;
}

cli::WorkList a_list(cli::Rows rows) {
  cli::WorkList list;
  list.name = "due";
  list.title = "Due";
  list.as_of = "2026-03-20";
  list.stamp = "Made now";
  list.keys = {"number", "parity"};
  list.total_by = {"parity"};
  list.dated = true;
  list.rows = std::move(rows);
  return list;
}

}  // namespace

TEST_CASE("of rows those that are wanted are left, and of them the first", "[cli]") {
  int taken = 0;
  const cli::Rows all = rows_to(7, 7, taken);
  const cli::Rows odd = all.where([](const cli::WorkListRow& row) { return row.cells.at(1) == "odd"; });
  CHECK(odd.size() == 4);
  CHECK(numbers_of(odd) == "1 3 5 7 ");
  CHECK(odd.first(2).size() == 2);
  CHECK(numbers_of(odd.first(2)) == "1 3 ");
  CHECK(numbers_of(odd.first(4)) == "1 3 5 7 ");
  CHECK(numbers_of(odd.first(9)) == "1 3 5 7 ");
  CHECK(numbers_of(all.first(3).where(
            [](const cli::WorkListRow& row) { return row.cells.at(1) == "odd"; })) == "1 3 ");
  CHECK(numbers_of(all) == "1 2 3 4 5 6 7 ");
  CHECK(cli::Rows().empty());
  CHECK(numbers_of({}).empty());
}

TEST_CASE("no more rows are made than are asked for", "[cli]") {
  int taken = 0;
  CHECK(numbers_of(rows_to(1000, 1000, taken).first(3)) == "1 2 3 ");
  CHECK(taken == 3);
}

TEST_CASE("a list that lacks a row, or has one too many, does not end as if it were whole", "[cli]") {
  int taken = 0;
  const std::uint64_t counted = GENERATE(0U, 3U, 5U);
  const std::string format = GENERATE("text", "json", "csv", "html", "ics");
  INFO(format << " " << counted);
  std::ostringstream out;
  try {
    cli::write(out, a_list(rows_to(4, counted, taken)), format, cli::Names::left_out);
    FAIL("written as if it were whole");
  } catch (const cli::Failure& failure) {
    CHECK(failure.code == cli::ExitCode::ledger_fault);
    REQUIRE(failure.errors.size() == 1);
    CHECK(failure.errors.front().code == "list_incomplete");
    CHECK(failure.errors.front().message ==
          "the list has 4 rows where " + std::to_string(counted) + " were counted: do not work from it");
    CHECK(failure.errors.front().help == "run `dueward audit verify`");
  }
  for (const char* end : {"End of the list", "</html>", "END:VCALENDAR", "\"totals\""})
    CHECK(out.str().find(end) == std::string::npos);
}

// Written in three parts, and RFC 8785 orders the keys over all of them.
TEST_CASE("a list is canonical JSON, with and without rows", "[cli]") {
  int taken = 0;
  const int rows = GENERATE(0, 1, 3);
  const std::string line =
      support::printed(cli::write_json, a_list(rows_to(rows, static_cast<std::uint64_t>(rows), taken)));
  const auto list = nlohmann::json::parse(line);
  CHECK(line == engine::canonical_json(list) + "\n");
  CHECK(list["rows"].size() == static_cast<std::size_t>(rows));
  CHECK(list["count"] == rows);
  CHECK(list["totals"]["parity"].value("odd", 0) == (rows + 1) / 2);
}
