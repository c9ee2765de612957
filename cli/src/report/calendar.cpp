#include "report/calendar.h"

#include "engine/canonical.h"
#include "report/caution.h"

namespace cli {

namespace {

constexpr std::size_t longest_line = 75;  // octets, without the line break

bool begins_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0) != 0x80;
}

// Octets that stay together: a UTF-8 character, or an escape.
std::size_t length_of_unit(std::string_view text) {
  std::size_t length = 1;
  if (text.front() == '\\' && text.size() > 1) ++length;
  while (length < text.size() && !begins_character(text[length])) ++length;
  return length;
}

std::string digits_of(std::string_view date) {
  std::string digits(date);
  std::erase_if(digits, [](char c) { return c == '-' || c == ':'; });
  return digits;
}

// `2026-03-10T09:15:00.000Z` to `20260310T091500Z`.
std::string stamp(const std::string& instant) {
  const std::string whole = instant.substr(0, instant.find('.'));
  return digits_of(whole) + (whole.ends_with('Z') ? "" : "Z");
}

// Opaque: tells nothing about the person, and no other ledger makes the same one.
std::string uid_of(const WorkList& list, const CalendarEntry& entry) {
  return engine::digest_text(list.ledger_identity + " " + entry.key).substr(7, 32) + "@dueward.invalid";
}

std::string event_of(const WorkList& list, const CalendarEntry& entry, Names names) {
  const bool named = names == Names::shown;
  std::string event = "BEGIN:VEVENT\r\n";
  event += calendar_line("UID", uid_of(list, entry));
  event += calendar_line("DTSTAMP", stamp(entry.changed_at));
  event += calendar_line("LAST-MODIFIED", stamp(entry.changed_at));
  event += calendar_line("SEQUENCE", std::to_string(entry.sequence));
  event += calendar_line("DTSTART;VALUE=DATE", digits_of(engine::text_of(entry.day)));
  event += calendar_line("SUMMARY", calendar_text(entry.summary + (named ? ": " + entry.person : "")));
  event += calendar_line("DESCRIPTION", calendar_text(entry.description));
  event += calendar_line("STATUS", entry.confirmed ? "CONFIRMED" : "TENTATIVE");
  return event + "TRANSP:TRANSPARENT\r\nCLASS:CONFIDENTIAL\r\nEND:VEVENT\r\n";
}

// Not when it was made: the same ledger on the same day gives the same bytes.
std::string description_of(const WorkList& list) {
  Totals totals(list);
  list.rows.each([&](const WorkListRow& row) { totals.count(row); });
  std::string text = std::to_string(list.rows.size()) + " as of " + list.as_of +
                     ", from a ledger with head sha256:" + list.head + ".";
  for (const auto& lines : {filter_lines(list), closing_lines(list, totals)}) {
    for (const std::string& line : lines) text += "\n" + line;
  }
  return text + "\n" + std::string(caution);
}

}  // namespace

std::string calendar_text(std::string_view text) {
  std::string escaped;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') escaped += '\\';
    if (c == '\n') {
      escaped += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 || c == '\t') {
      escaped += c;  // other control characters may not stand in a calendar
    }
  }
  return escaped;
}

std::string calendar_line(std::string_view name, std::string_view value) {
  std::string line = std::string(name) + ":", text;
  while (!value.empty()) {
    const std::size_t length = length_of_unit(value);
    if (line.size() + length > longest_line) {
      text += line + "\r\n";
      line = " ";
    }
    line += value.substr(0, length);
    value.remove_prefix(length);
  }
  return text + line + "\r\n";
}

void write_calendar(std::ostream& out, const WorkList& list, Names names) {
  out << "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"
      << calendar_line("PRODID", "-//Dueward//" DUEWARD_VERSION "//EN")
      << calendar_line("NAME", calendar_text(list.title))
      << calendar_line("X-WR-CALNAME", calendar_text(list.title))
      << calendar_line("DESCRIPTION", calendar_text(description_of(list)));
  list.rows.each([&](const WorkListRow& row) {
    if (row.entry) out << event_of(list, *row.entry, names);
  });
  out << "END:VCALENDAR\r\n";
}

}  // namespace cli
