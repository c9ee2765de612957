#include "report/csv.h"

#include <catch2/catch.hpp>
#include <string>

#include "support/printed.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

namespace {

/// What whoever reads a cell back does: one apostrophe in front of what would begin a formula goes.
std::string undefused(const std::string& cell) {
  if (!cell.starts_with('\'')) return cell;
  const std::string rest = cell.substr(1);
  for (const char* start : {"=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"}) {
    if (rest.starts_with(start)) return rest;
  }
  return cell;
}

cli::WorkList a_list(const std::vector<std::string>& texts) {
  cli::WorkList list;
  list.as_of = "2026-03-20";
  list.head = "ab12";
  list.keys = {"text", "days"};
  list.rows = cli::rows_of(texts, [](const std::string& text) {
    return cli::WorkListRow{{text, -3}, "", {}};
  });
  return list;
}

const std::vector<std::string> awkward = {
    "=1+1",       "+44 20",           "-1",       "@SUM(A1)",  "\t=1",
    "＝1+1",      "a,\"b\"",          " leading", "trailing ", "Okonwara, Ada",
    "line\nfeed", "carriage\rreturn", "'quoted'", "Zoë"};

}  // namespace

TEST_CASE("full-width signs and a line feed begin a formula too, outer spaces are quoted", "[cli]") {
  struct Row {
    const char* because;
    const char* text;
    const char* cell;
  };
  const auto row = GENERATE(values<Row>({
      {"full-width equals", "＝1", "'＝1"},
      {"full-width plus", "＋1", "'＋1"},
      {"full-width minus", "－1", "'－1"},
      {"full-width at", "＠A1", "'＠A1"},
      {"a line feed in front", "\n=1", "\"'\n=1\""},
      {"a space in front", " a", "\" a\""},
      {"a space behind", "a ", "\"a \""},
  }));
  INFO(row.because);
  CHECK(cli::csv_cell(std::string_view(row.text)) == row.cell);
}

TEST_CASE("each line of a list says the day and the ledger's head it is from", "[cli]") {
  CHECK(support::printed(cli::write_csv, a_list({"x"})) ==
        "text,days,as_of,ledger_head,filters,number,of\r\nx,-3,2026-03-20,ab12,,1,1\r\n");
}

// Outside check: Python's csv module.
TEST_CASE("another reader finds every cell again once the apostrophe is off", "[cli]") {
  const support::TemporaryFolder folder;
  support::write_file(folder.file("list.csv"), support::printed(cli::write_csv, a_list(awkward)));
  const auto read = support::shell(
      "/usr/bin/python3 -c \"import csv,json; print(json.dumps([r[0] for r in csv.reader(open('" +
      folder.file("list.csv") + "', newline='', encoding='utf-8'))][1:]))\"");
  REQUIRE(read.exit_code == 0);
  std::vector<std::string> found;
  for (const auto& cell : nlohmann::json::parse(read.printed)) found.push_back(undefused(cell));
  CHECK(found == awkward);
}

// Outside check: gnumeric's ssconvert reads as a spreadsheet does. Without it this says so and passes.
TEST_CASE("a spreadsheet computes nothing from a list", "[cli]") {
  if (support::shell("command -v ssconvert").exit_code != 0) {
    WARN("skipped: gnumeric's ssconvert is not here");
    return;
  }
  const support::TemporaryFolder folder;
  // As many columns as a list has: ssconvert guesses the separator, and few commas beside hyphens mislead it.
  std::string lines = cli::csv_line({"text", "name", "place", "findings", "state", "due"});
  for (const char* text : {"=1+1", "+1+1", "-1-1", "@SUM(1,1)"}) {
    lines += cli::csv_line({text, "Okonwara", "Room 2", "1 polyp", "opened", "soon"});
  }
  support::write_file(folder.file("list.csv"), lines);
  const auto read = support::shell("ssconvert -I Gnumeric_stf:stf_csvtab -T Gnumeric_stf:stf_csv " +
                                   folder.file("list.csv") + " " + folder.file("read.csv") + " 2>&1 && cat " +
                                   folder.file("read.csv"));
  REQUIRE(read.exit_code == 0);
  INFO(read.printed);
  for (const char* text : {"=1+1", "+1+1", "-1-1", "@SUM(1,1)"})
    CHECK(read.printed.find(text) != std::string::npos);
}
