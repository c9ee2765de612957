#include "report/work_list_page.h"

#include <catch2/catch.hpp>
#include <string>

#include "cli/report/given_rows.h"
#include "support/printed.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

namespace {

cli::WorkList a_list() {
  cli::WorkList list;
  list.name = "due";
  list.title = "Due <b>now</b>";
  list.meaning = "who & why";
  list.next = "invite them";
  list.as_of = "2026-03-20";
  list.stamp = "Made now";
  list.filters = {"place Room 1"};
  list.reconciliation = "Open recalls: 2 = 2.";
  list.columns = {"person", "when"};
  std::vector<cli::WorkListRow> rows;
  for (const char* name : {"<script>alert(1)</script>", "O'Hara \"Kit\""}) {
    cli::WorkListRow row{{}, "", {}};
    row.print = {{name, "born 1961-05-04"}, {"due 2026-03-10", ""}};
    rows.push_back(row);
  }
  list.rows = support::given_rows(std::move(rows));
  return list;
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++count;
  return count;
}

}  // namespace

TEST_CASE("nothing of a patient's record runs in a page", "[cli]") {
  const std::string page = support::printed(cli::write_html, a_list());
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("&lt;script&gt;alert(1)&lt;/script&gt;") != std::string::npos);
  CHECK(page.find("O'Hara &quot;Kit&quot;") != std::string::npos);
  CHECK(page.find("<b>") == std::string::npos);
}

TEST_CASE("a page fetches nothing", "[cli]") {
  const std::string page = support::printed(cli::write_html, a_list());
  for (const char* part : {"http", "src=", "href=", "url(", "@import"}) {
    INFO(part);
    CHECK(page.find(part) == std::string::npos);
  }
}

TEST_CASE("a page prints on A4 landscape with its heading on each sheet and its rows numbered", "[cli]") {
  const std::string page = support::printed(cli::write_html, a_list());
  CHECK(page.find("size: A4 landscape") != std::string::npos);
  CHECK(page.find("display: table-header-group") != std::string::npos);
  CHECK(page.find("counter(page)") != std::string::npos);
  CHECK(page.find("due <span class=\"d\">2026-03-10</span>") != std::string::npos);
  CHECK(page.find(">1/2<") != std::string::npos);
  CHECK(page.find(">2/2<") != std::string::npos);
  CHECK(page.find("End of the list: 2.") != std::string::npos);
  CHECK(page.find("Open recalls: 2 = 2.") != std::string::npos);
  CHECK(page.find("Only: place Room 1") != std::string::npos);
}

TEST_CASE("columns and rows have headings that a screen reader tells", "[cli]") {
  const std::string page = support::printed(cli::write_html, a_list());
  CHECK(times(page, "scope=\"col\"") == 3);
  CHECK(times(page, "scope=\"row\"") == 2);
  CHECK(page.find("<html lang=\"en-GB\">") != std::string::npos);
}

// Outside check: Python's html.parser follows every element to its end.
TEST_CASE("every element of a page is closed where it should be", "[cli]") {
  const support::TemporaryFolder folder;
  support::write_file(folder.file("a.html"), support::printed(cli::write_html, a_list()));
  support::write_file(folder.file("check.py"), R"(
import sys
from html.parser import HTMLParser
class Check(HTMLParser):
    stack = []
    def handle_starttag(self, tag, attrs):
        if tag not in ('meta',): self.stack.append(tag)
    def handle_endtag(self, tag):
        assert self.stack.pop() == tag, tag
c = Check(); c.feed(open(sys.argv[1], encoding='utf-8').read()); c.close()
print(len(c.stack))
)");
  const auto read =
      support::shell("/usr/bin/python3 " + folder.file("check.py") + " " + folder.file("a.html") + " 2>&1");
  CHECK(read.printed == "0\n");
}
