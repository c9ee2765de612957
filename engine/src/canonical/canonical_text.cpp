// Strings and the order of keys: RFC 8785, 3.2.2.2 and 3.2.3.

#include <algorithm>

#include "canonical/canonical_parts.h"
#include "engine/canonical.h"

namespace engine {

namespace {

bool needs_escape(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\';
}

void append_escaped(std::string& out, char c) {
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\b':
      out += "\\b";
      return;
    case '\f':
      out += "\\f";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\r':
      out += "\\r";
      return;
    case '\t':
      out += "\\t";
      return;
    default:
      break;
  }
  constexpr char digits[] = "0123456789abcdef";
  const auto code = static_cast<unsigned char>(c);
  out.append("\\u00");
  out += digits[code >> 4];
  out += digits[code & 0x0F];
}

// In UTF-16, U+10000 and beyond begin with D8 to DB and so come before U+E000 to U+FFFF; in UTF-8 the first
// bytes F0 to F4 come after EE and EF. Lifting these two puts first bytes into the order of UTF-16; all else
// agrees.
unsigned rank(char byte) {
  const auto value = static_cast<unsigned char>(byte);
  return value == 0xEE || value == 0xEF ? value + 0x10U : value;
}

}  // namespace

void append_json_string(std::string& out, std::string_view text) {
  out += '"';
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (!needs_escape(text[at])) continue;
    out.append(text.substr(copied, at - copied));
    append_escaped(out, text[at]);
    copied = at + 1;
  }
  out.append(text.substr(copied));
  out += '"';
}

bool key_before(std::string_view a, std::string_view b) {
  const std::size_t common = std::min(a.size(), b.size());
  for (std::size_t i = 0; i < common; ++i) {
    if (a[i] != b[i]) return rank(a[i]) < rank(b[i]);
  }
  return a.size() < b.size();
}

}  // namespace engine
