// Printed text without its line breaks: where it breaks depends on the names of files and people in it.

#pragma once

#include <string>

namespace support {

/// White space of any kind and length as one space.
inline std::string on_one_line(const std::string& text) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (!blank) line += c;
    if (blank && !line.empty() && line.back() != ' ') line += ' ';
  }
  return line;
}

}  // namespace support
