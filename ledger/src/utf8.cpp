#include "utf8.h"

#include <simdjson.h>

namespace ledger {

bool is_utf8(std::string_view text) {
  return simdjson::validate_utf8(text.data(), text.size());
}

std::string as_utf8(std::string_view text) {
  if (is_utf8(text)) return std::string(text);
  std::string out;
  for (const char c : text) {
    if (static_cast<unsigned char>(c) < 0x80) {
      out += c;
    } else {
      out += "\xEF\xBF\xBD";
    }
  }
  return out;
}

}  // namespace ledger
