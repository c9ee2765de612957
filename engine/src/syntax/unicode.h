// Code points of UTF-8 text, and which of them FEEL names are made of.
// Source: DMN 1.5, 10.3.1.2 grammar rules 27 to 29 (name start, name part, additional symbols).

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace engine {

struct CodePoint {
  char32_t value = 0;
  std::uint32_t bytes = 0;  ///< 0 at the end of the text. An invalid byte is one code point U+FFFD of one byte.
};

CodePoint code_point_at(std::string_view text, std::size_t offset);
void append_utf8(std::string& out, char32_t code_point);
/// A byte that is no UTF-8 counts as one.
std::size_t count_code_points(std::string_view text);
/// The same as a Place or Diagnostic holds it.
inline std::uint32_t columns(std::string_view text) { return static_cast<std::uint32_t>(count_code_points(text)); }
/// Byte offset of the code point number `index` (from 0), or text.size() when there are fewer.
std::size_t byte_offset(std::string_view text, std::uint64_t index);

bool is_space(char32_t c);
bool is_name_start(char32_t c);
bool is_name_part(char32_t c);
inline bool is_digit(char32_t c) { return c >= '0' && c <= '9'; }

}  // namespace engine
