#include "syntax/unicode.h"

namespace engine {

namespace {

constexpr CodePoint invalid{0xFFFD, 1};

// One lead byte and `extra` continuation bytes; overlong forms, surrogates and values past U+10FFFF are invalid.
CodePoint multi_byte(std::string_view text, std::size_t offset, std::uint32_t extra, char32_t value,
                     char32_t least) {
  if (offset + extra >= text.size()) return invalid;
  for (std::uint32_t i = 1; i <= extra; ++i) {
    const auto byte = static_cast<unsigned char>(text[offset + i]);
    if ((byte & 0xC0) != 0x80) return invalid;
    value = value << 6 | (byte & 0x3Fu);
  }
  if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return invalid;
  return {value, extra + 1};
}

}  // namespace

CodePoint code_point_at(std::string_view text, std::size_t offset) {
  if (offset >= text.size()) return {};
  const auto lead = static_cast<unsigned char>(text[offset]);
  if (lead < 0x80) return {lead, 1};
  if ((lead & 0xE0) == 0xC0) return multi_byte(text, offset, 1, lead & 0x1Fu, 0x80);
  if ((lead & 0xF0) == 0xE0) return multi_byte(text, offset, 2, lead & 0x0Fu, 0x800);
  if ((lead & 0xF8) == 0xF0) return multi_byte(text, offset, 3, lead & 0x07u, 0x10000);
  return invalid;
}

void append_utf8(std::string& out, char32_t c) {
  const auto byte = [&](char32_t bits) { out += static_cast<char>(static_cast<unsigned char>(bits)); };
  if (c < 0x80) {
    byte(c);
  } else if (c < 0x800) {
    byte(0xC0 | c >> 6);
    byte(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    byte(0xE0 | c >> 12);
    byte(0x80 | (c >> 6 & 0x3F));
    byte(0x80 | (c & 0x3F));
  } else {
    byte(0xF0 | c >> 18);
    byte(0x80 | (c >> 12 & 0x3F));
    byte(0x80 | (c >> 6 & 0x3F));
    byte(0x80 | (c & 0x3F));
  }
}

std::size_t count_code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) at += code_point_at(text, at).bytes;
  return count;
}

std::size_t byte_offset(std::string_view text, std::uint64_t index) {
  std::size_t at = 0;
  for (std::uint64_t i = 0; i < index && at < text.size(); ++i) at += code_point_at(text, at).bytes;
  return at;
}

bool is_space(char32_t c) {
  switch (c) {
    case '\t': case '\n': case 0x0B: case 0x0C: case '\r': case ' ': case 0x85: case 0xA0: case 0x1680: case 0x180E:
    case 0x2028: case 0x2029: case 0x202F: case 0x205F: case 0x3000: case 0xFEFF:
      return true;
    default:
      return c >= 0x2000 && c <= 0x200B;
  }
}

bool is_name_start(char32_t c) {
  if (c < 0x80) return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '?';
  return (c >= 0xC0 && c <= 0xD6) || (c >= 0xD8 && c <= 0xF6) || (c >= 0xF8 && c <= 0x2FF) ||
         (c >= 0x370 && c <= 0x37D) || (c >= 0x37F && c <= 0x1FFF) || (c >= 0x200C && c <= 0x200D) ||
         (c >= 0x2070 && c <= 0x218F) || (c >= 0x2C00 && c <= 0x2FEF) || (c >= 0x3001 && c <= 0xD7FF) ||
         (c >= 0xF900 && c <= 0xFDCF) || (c >= 0xFDF0 && c <= 0xFFFC) || (c >= 0x10000 && c <= 0xEFFFF);
}

bool is_name_part(char32_t c) {
  return is_name_start(c) || is_digit(c) || c == 0xB7 || (c >= 0x300 && c <= 0x36F) || (c >= 0x203F && c <= 0x2040);
}

}  // namespace engine
