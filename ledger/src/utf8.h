// Entries are JSON, and JSON is UTF-8 (RFC 8259, section 8.1): text that is not cannot be read back.

#pragma once

#include <string>
#include <string_view>

namespace ledger {

bool is_utf8(std::string_view text);

/// The text itself, or where it is no UTF-8, with U+FFFD for each byte outside ASCII: for names of files,
/// which may be of any bytes and only tell a person where something came from.
std::string as_utf8(std::string_view text);

}  // namespace ledger
