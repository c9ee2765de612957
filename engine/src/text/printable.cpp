#include "text/printable.h"

namespace engine {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr std::string_view ellipsis = "\xE2\x80\xA6";     // U+2026

unsigned char byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

bool is_control(std::string_view character) {
  const unsigned char first = byte_at(character, 0);
  if (first < 0x20 || first == 0x7F) return true;
  return first == 0xC2 && byte_at(character, 1) < 0xA0;  // U+0080 to U+009F
}

}  // namespace

std::size_t character_length(std::string_view text, std::size_t at) {
  const unsigned char first = byte_at(text, at);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte_at(text, at + i) & 0xC0) != 0x80) return 0;
  }
  const unsigned char second = byte_at(text, at + 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second >= 0xA0;
  const bool beyond = first == 0xF4 && second >= 0x90;
  return overlong || surrogate || beyond ? 0 : length;
}

std::size_t count_code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    const std::size_t length = character_length(text, at);
    at += length == 0 ? 1 : length;
  }
  return count;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = character_length(text, at);
    const std::string_view character = text.substr(at, length);
    if (length == 0) {
      out += replacement;
    } else if (character == "\t") {
      out += ' ';
    } else {
      out += is_control(character) ? replacement : character;
    }
    at += length == 0 ? 1 : length;
  }
  return out;
}

std::string printable(std::string_view text, std::size_t most) {
  std::string out = printable(text);
  if (count_code_points(out) <= most) return out;
  std::size_t end = 0;
  for (std::size_t taken = 0; taken + 1 < most; ++taken) end += character_length(out, end);
  out.resize(end);
  out += ellipsis;
  return out;
}

}  // namespace engine
