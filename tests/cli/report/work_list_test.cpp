#include "report/work_list.h"
#include "report/csv.h"

#include <catch2/catch.hpp>
#include <sstream>
#include <string>

#include "cli/report/given_rows.h"
#include "report/layout.h"
#include "support/printed.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

namespace {

cli::WorkList a_list(const std::string& name = "O'Hara, \"Kit\"") {
  cli::WorkList list;
  list.name = "due";
  list.title = "Due for the next step";
  list.meaning = std::string(20, 'm') + " " + std::string(150, 'n');
  list.next = "invite them";
  list.as_of = "2026-03-20";
  list.stamp = "Made now";
  list.keys = {"name", "days", "earliest"};
  list.rows = support::given_rows({{{name, -3, nullptr}, "R1    " + std::string(200, 'x'), {"one detail"}}});
  return list;
}

}  // namespace

TEST_CASE("a cell that a spreadsheet would run is defused", "[cli]") {
  struct Row {
    const char* because;
    const char* text;
    const char* cell;
  };
  const auto row = GENERATE(values<Row>({
      {"plain text stays", "Okonwara", "Okonwara"},
      {"an equals sign begins a formula", "=1+1", "'=1+1"},
      {"so does a plus", "+44 20", "'+44 20"},
      {"and a minus", "-1", "'-1"},
      {"and an at sign", "@SUM(A1)", "'@SUM(A1)"},
      {"a tab in front hides one", "\t=1", "'\t=1"},
      {"a carriage return in front too, and is quoted", "\r=1", "\"'\r=1\""},
      {"within the text it is harmless", "a=b", "a=b"},
      {"a comma is quoted", "Okonwara, Ada", "\"Okonwara, Ada\""},
      {"a quote is doubled", "Ada \"Kit\"", "\"Ada \"\"Kit\"\"\""},
      {"a line feed is quoted", "a\nb", "\"a\nb\""},
      {"a formula with a comma is both", "=A1,B1", "\"'=A1,B1\""},
      {"nothing stays nothing", "", ""},
  }));
  INFO(row.because);
  CHECK(cli::csv_cell(std::string_view(row.text)) == row.cell);
}

TEST_CASE("a list is CSV, and a number below zero is no formula", "[cli]") {
  CHECK(support::printed(cli::write_csv, a_list()) ==
        "name,days,earliest,as_of,ledger_head,filters,number,of\r\n\"O'Hara, "
        "\"\"Kit\"\"\",-3,,2026-03-20,,,1,1\r\n");
}

// Outside check: Python's csv module reads back what was written.
TEST_CASE("another reader of CSV finds the same cells", "[cli]") {
  const support::TemporaryFolder folder;
  const cli::WorkList list = a_list("a,\"b\"\nc");
  support::write_file(folder.file("list.csv"), support::printed(cli::write_csv, list));
  const auto read = support::shell("python3 -c \"import csv; print(list(csv.reader(open('" +
                                   folder.file("list.csv") + "', newline='')))[1])\"");
  CHECK(read.exit_code == 0);
  CHECK(read.printed == "['a,\"b\"\\nc', '-3', '', '2026-03-20', '', '', '1', '1']\n");
}

TEST_CASE("a list is text that fits the page and ends with the caution", "[cli]") {
  const std::string text = support::printed(cli::write_text, a_list());
  CHECK(text.starts_with("Due for the next step: 1, as of 2026-03-20\n"));
  CHECK(text.find("Next: invite them\n") != std::string::npos);
  CHECK(text.ends_with("local policy decides.\n"));
}

TEST_CASE("an empty list says that there is no one", "[cli]") {
  cli::WorkList list = a_list();
  list.rows = {};
  CHECK(support::printed(cli::write_text, list)
            .starts_with("Due for the next step: no one, as of 2026-03-20\n"));
}

TEST_CASE("a list is one line of JSON", "[cli]") {
  const std::string line = support::printed(cli::write_json, a_list());
  CHECK(line.find('\n') == line.size() - 1);
  const auto json = nlohmann::json::parse(line);
  CHECK(json["count"] == 1);
  CHECK(json["rows"][0]["days"] == -3);
  CHECK(json["rows"][0]["earliest"].is_null());
}
