// The lines of a list as calendar entries. Source: RFC 5545 (iCalendar), RFC 7986 (NAME).

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "report/work_list.h"

namespace cli {

/// Whether the calendar says who each entry is about. Calendars are shared, synchronised and shown on
/// screens in passing: without names is what is given unless names are asked for.
enum class Names : std::uint8_t { left_out, shown };

/// One all-day event for each row that has an entry, in the order of the list, CR LF, folded at 75 octets.
/// The same ledger gives the same bytes: DTSTAMP is the last change of what the entry is about, its UID the
/// same for as long as that lives, SEQUENCE the number of changes.
void write_calendar(std::ostream& out, const WorkList& list, Names names);

/// `NAME:` and the value, escaped where it is text by the caller, folded. Never inside a UTF-8 character or
/// between a backslash and what it escapes.
std::string calendar_line(std::string_view name, std::string_view value);

/// Backslash, semicolon, comma and line feed escaped.
std::string calendar_text(std::string_view text);

}  // namespace cli
