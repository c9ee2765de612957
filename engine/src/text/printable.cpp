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
  const std::size_t bytes = code_point_at(text, at).bytes;
  return bytes == 1 && byte_at(text, at) >= 0x80 ? 0 : bytes;
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
