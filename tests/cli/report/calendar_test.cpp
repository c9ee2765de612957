#include "report/calendar.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "cli/report/given_rows.h"
#include "support/printed.h"
#include "support/shell.h"
#include "support/temporary_unit.h"

namespace {

cli::WorkListRow a_row(const std::string& key, engine::Date day, const std::string& description) {
  cli::WorkListRow row{{}, "", {}};
  row.entry = cli::CalendarEntry{day,
                                 key,
                                 "site check due (R1)",
                                 "Okonwara, Ada, born 1961-05-04",
                                 description,
                                 "2026-03-10T09:15:00.000Z",
                                 2,
                                 false};
  return row;
}

const cli::WorkListRow plain = a_row("recall:R1", {2027, 3, 14}, "plain");

cli::WorkList a_list() {
  cli::WorkList list;
  list.name = "due";
  list.title = "Due; for the next step, or not";
  list.ledger_identity = "ab12";
  list.rows = support::given_rows(
      {plain, a_row("recall:R2", {2028, 2, 29}, "Zoë " + std::string(200, 'x') + " é; with, \\ and\nline")});
  return list;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    lines.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  return lines;
}

std::string value_of(const std::string& text, const std::string& name) {
  const std::size_t at = text.find("\r\n" + name) + 2;
  return text.substr(at, text.find("\r\n", at) - at);
}

/// What `script` prints, given the calendar's file as `path`; empty when the library is not here.
std::string read_by(const std::string& library, const std::string& script) {
  if (support::shell("/usr/bin/python3 -c 'import " + library + "' 2>/dev/null").exit_code != 0) {
    WARN("skipped: python3-" + library + " is not here");
    return "";
  }
  const support::TemporaryFolder folder;
  support::write_file(folder.file("a.ics"),
                      support::printed(cli::write_calendar, a_list(), cli::Names::left_out));
  support::write_file(folder.file("read.py"), "path = '" + folder.file("a.ics") + "'\n" + script);
  const auto read = support::shell("/usr/bin/python3 " + folder.file("read.py") + " 2>&1");
  INFO(read.printed);
  CHECK(read.exit_code == 0);
  return read.printed;
}

}  // namespace

TEST_CASE("no line of a calendar is longer than 75 octets, and none breaks a character or an escape",
          "[cli]") {
  for (std::size_t shift = 0; shift < 80; ++shift) {
    const std::string value =
        std::string(shift, 'a') + cli::calendar_text("éé;;,,\\\\😀😀") + std::string(90, 'b');
    std::string unfolded;
    for (const std::string& line : lines_of(cli::calendar_line("SUMMARY", value))) {
      CHECK(line.size() <= 75);
      CHECK((static_cast<unsigned char>(line[line.front() == ' ' ? 1 : 0]) & 0xC0) != 0x80);
      unfolded += line.front() == ' ' ? line.substr(1) : line;
    }
    CHECK(unfolded == "SUMMARY:" + value);
  }
}

TEST_CASE("text is escaped as RFC 5545 says", "[cli]") {
  CHECK(cli::calendar_text("a;b,c\\d\ne:\"f\"\r") == "a\\;b\\,c\\\\d\\ne:\"f\"");
}

TEST_CASE("an entry is an all-day one that blocks nobody and names nobody", "[cli]") {
  const std::string text = support::printed(cli::write_calendar, a_list(), cli::Names::left_out);
  for (const char* day : {"20270314", "20280229"})
    CHECK(text.find(std::string("DTSTART;VALUE=DATE:") + day + "\r\n") != std::string::npos);
  CHECK(text.find("Okonwara") == std::string::npos);
  CHECK(text.find("TRANSP:TRANSPARENT\r\n") != std::string::npos);
  CHECK(text.find("CLASS:CONFIDENTIAL\r\n") != std::string::npos);
  CHECK(text.find("DTSTAMP:20260310T091500Z\r\n") != std::string::npos);
  CHECK(text.find("SEQUENCE:2\r\n") != std::string::npos);
  CHECK(support::printed(cli::write_calendar, a_list(), cli::Names::shown).find("Okonwara") !=
        std::string::npos);
}

TEST_CASE("an entry keeps its UID from list to list, and no other ledger has it", "[cli]") {
  cli::WorkList due = a_list(), overdue = a_list(), elsewhere = a_list();
  overdue.name = "overdue";
  overdue.rows = support::given_rows({a_row("recall:R1", {2027, 4, 1}, "plain")});
  elsewhere.ledger_identity = "cd34";
  const auto uid = [](const cli::WorkList& list) {
    return value_of(support::printed(cli::write_calendar, list, cli::Names::left_out), "UID:");
  };
  CHECK(uid(due) == uid(overdue));
  CHECK(uid(due) != uid(elsewhere));
  due.rows = support::given_rows({plain});
  CHECK(uid(due) == uid(overdue));
}

// Outside checks: other people's readers of iCalendar.
TEST_CASE("python3-icalendar reads the days and texts that were written", "[cli]") {
  const std::string read = read_by("icalendar", R"(
from icalendar import Calendar
for e in Calendar.from_ical(open(path,'rb').read()).walk('VEVENT'):
    print(e.decoded('dtstart'), str(e['description']).replace('\n','|').replace('x',''), e['status'])
)");
  if (!read.empty())
    CHECK(read == "2027-03-14 plain TENTATIVE\n2028-02-29 Zoë  é; with, \\ and|line TENTATIVE\n");
}

TEST_CASE("python3-vobject finds the calendar valid", "[cli]") {
  const std::string read = read_by("vobject", R"(
import vobject
c = vobject.readOne(open(path, newline='', encoding='utf-8').read(), validate=True)
c.validate(raiseException=True)
print([str(e.dtstart.value) for e in c.vevent_list], len({e.uid.value for e in c.vevent_list}))
)");
  if (!read.empty()) CHECK(read == "['2027-03-14', '2028-02-29'] 2\n");
}
