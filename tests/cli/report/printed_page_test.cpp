// The page for print as a browser prints it. Chromium and poppler's tools are not needed to build or run
// anything else: without them these tests say so.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <string>
#include <vector>

#include "cli/report/given_rows.h"
#include "report/work_list_page.h"
#include "support/printed.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

namespace {

constexpr std::size_t people = 200;

std::string name_of(std::size_t number) {
  const std::string names[] = {
      "Featherstonehaugh-Cholmondeley-Marjoribanks, Mrs Wilhelmina Alexandrina Theodora", "Ng, Mr Bo",
      "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch, Ms Ann", "Okonwara-O'Hara, Mx Kit"};
  return names[number % 4] + " the " + std::to_string(number) + "th";
}

/// As long as a due list gets: the longest names, every line filled, and now and then a person with many
/// needs.
cli::WorkList a_long_list() {
  cli::WorkList list;
  list.name = "due";
  list.title = "Due for the next step";
  list.meaning = "Open recalls that are due and not yet late.";
  list.next = "invite them";
  list.as_of = "2026-03-20";
  list.stamp = "Made 2026-03-20T09:00:00Z by dueward from unit.ledger, 2533 entries, head sha256:" +
               std::string(64, 'a') + ".";
  list.filters = {"place Room 1"};
  list.unfiltered = 412;
  list.keys = {"state"};
  list.total_by = {"state"};
  list.columns = {"person",           "how to reach them",  "what is due",           "when",
                  "last examination", "state and contacts", "before the examination"};
  std::vector<cli::WorkListRow> rows;
  for (std::size_t i = 0; i < people; ++i) {
    cli::WorkListRow row{{i % 3 == 0 ? "invited" : "vetted"}, "", {}};
    std::vector<std::string> needs = {"anticoagulant (since 2024-02-01, pre-assessment)"};
    for (std::size_t more = 0; more < i % 9; ++more)
      needs.push_back("allergy: medicine " + std::to_string(more) +
                      " (since 2019-05-01, letter of the ward)");
    needs.push_back("endofrow" + std::to_string(i) + ".");
    row.print = {
        {name_of(i) + ".", "born 1961-05-04, female", "nhs-number 9990000018; hospital-number H100218",
         "P2094"},
        {"telephone 01632 960018", "a.very.long.address.of.someone@a-long-domain.example.org",
         "18 Upper Green, Netherby St Mary", "family doctor Dr N. Oyelaran, Weirside Medical Centre"},
        {"R2122 surveillance colonoscopy", "hereditary first", "uk-2020 20-05, signed by Dr R. Hazelmere"},
        {"due 2026-11-07", "window to 2027-03-07", "late after 2026-12-19", "due 18 days ago"},
        {"2026-09-07 E1219", "Community list, Mr T. Quince",
         "6 polyps, largest 26 mm (descending colon); 5 adenomas, 1 serrated"},
        {"invited", "vetted by Dr R. Hazelmere on 2026-09-26: invite", "letter 2026-10-01",
         "telephone 2026-10-20"},
        std::move(needs)};
    rows.push_back(std::move(row));
  }
  list.rows = support::given_rows(std::move(rows));
  return list;
}

bool is_here(const std::string& program) {
  if (support::shell("command -v " + program + " 2>/dev/null").exit_code == 0) return true;
  WARN("skipped: " + program + " is not here");
  return false;
}

std::string without_spaces(std::string text) {
  std::erase_if(text, [](unsigned char c) { return std::isspace(c) != 0; });
  return text;
}

/// The text of each sheet without white space, in the order in which the page was written: words that were
/// broken over two lines are whole again.
std::vector<std::string> sheets_of(const cli::WorkList& list) {
  const support::TemporaryFolder folder;
  const std::string page = folder.file("list.html"), printed = folder.file("list.pdf");
  support::write_file(page, support::printed(cli::write_html, list));
  const auto print = support::shell(
      "timeout 600 chromium --headless --no-sandbox --disable-gpu --user-data-dir=" + folder.file("browser") +
      " --no-pdf-header-footer --print-to-pdf=" + printed + " file://" + page + " 2>&1");
  INFO(print.printed);
  REQUIRE(print.exit_code == 0);
  std::string text = support::shell("pdftotext -raw " + printed + " -").printed;
  std::vector<std::string> sheets;
  for (std::size_t end = 0; (end = text.find('\f')) != std::string::npos; text.erase(0, end + 1))
    sheets.push_back(without_spaces(text.substr(0, end)));
  return sheets;
}

std::size_t sheets_with(const std::vector<std::string>& sheets, const std::string& text) {
  return static_cast<std::size_t>(std::count_if(sheets.begin(), sheets.end(), [&](const std::string& sheet) {
    return sheet.find(without_spaces(text)) != std::string::npos;
  }));
}

}  // namespace

TEST_CASE("two hundred people are printed: headings on each sheet, no row broken, no one lost", "[cli]") {
  if (!is_here("chromium") || !is_here("pdftotext")) return;
  const cli::WorkList list = a_long_list();
  const auto sheets = sheets_of(list);
  CHECK(sheets.size() > 10);
  CHECK(sheets.size() < 150);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    INFO("sheet " << i + 1);
    const std::string number = "sheet " + std::to_string(i + 1) + " of " + std::to_string(sheets.size());
    CHECK(sheets_with({sheets[i]}, number) == 1);
    if (sheets_with({sheets[i]}, "R2122") == 0) continue;  // after the last person
    for (const std::string& heading : list.columns) CHECK(sheets_with({sheets[i]}, heading) == 1);
    CHECK(sheets_with({sheets[i]}, "Due for the next step: 200, as of 2026-03-20") == 1);
    CHECK(sheets_with({sheets[i]}, "Only: place Room 1") == 1);
    CHECK(sheets_with({sheets[i]}, list.stamp) == 1);
  }
  for (std::size_t i = 0; i < people; ++i) {
    INFO(name_of(i));
    const std::string begin = name_of(i) + ".", end = "endofrow" + std::to_string(i) + ".";
    CHECK(sheets_with(sheets, begin) == 1);
    const bool together = std::any_of(sheets.begin(), sheets.end(), [&](const std::string& sheet) {
      return sheets_with({sheet}, begin) == 1 && sheets_with({sheet}, end) == 1;
    });
    CHECK(together);
    CHECK(sheets_with(sheets, std::to_string(i + 1) + "/200" + begin) == 1);
  }
  CHECK(sheets_with(sheets, "End of the list: 200.") == 1);
  CHECK(sheets_with(sheets, "By state: invited 67, vetted 133.") == 1);
}
