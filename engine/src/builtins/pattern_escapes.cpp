// The sets of characters that patterns name by an escape. Source: XML Schema Part 2, F.1.1.

#include <algorithm>
#include <array>
#include <cstdio>
#include <span>

#include "builtins/pattern.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

constexpr char32_t last_code_point = 0x10FFFF;

struct Span {
  char32_t first;
  char32_t last;
};

struct Block {
  std::string_view name;
  char32_t first;
  char32_t last;
};

#include "builtins/pattern_blocks.inc"

constexpr std::array<Span, 3> white_space = {{{'\t', '\n'}, {'\r', '\r'}, {' ', ' '}}};

// NameStartChar and NameChar of XML 1.0, in ascending order.
constexpr std::array<Span, 16> name_start = {{{':', ':'},
                                              {'A', 'Z'},
                                              {'_', '_'},
                                              {'a', 'z'},
                                              {0xC0, 0xD6},
                                              {0xD8, 0xF6},
                                              {0xF8, 0x2FF},
                                              {0x370, 0x37D},
                                              {0x37F, 0x1FFF},
                                              {0x200C, 0x200D},
                                              {0x2070, 0x218F},
                                              {0x2C00, 0x2FEF},
                                              {0x3001, 0xD7FF},
                                              {0xF900, 0xFDCF},
                                              {0xFDF0, 0xFFFD},
                                              {0x10000, 0xEFFFF}}};
constexpr std::array<Span, 17> name_part = {{{'-', '.'},
                                             {'0', ':'},
                                             {'A', 'Z'},
                                             {'_', '_'},
                                             {'a', 'z'},
                                             {0xB7, 0xB7},
                                             {0xC0, 0xD6},
                                             {0xD8, 0xF6},
                                             {0xF8, 0x37D},
                                             {0x37F, 0x1FFF},
                                             {0x200C, 0x200D},
                                             {0x203F, 0x2040},
                                             {0x2070, 0x218F},
                                             {0x2C00, 0x2FEF},
                                             {0x3001, 0xD7FF},
                                             {0xF900, 0xFFFD},
                                             {0x10000, 0xEFFFF}}};

constexpr std::array<std::string_view, 36> categories = {
    "L",  "Lu", "Ll", "Lt", "Lm", "Lo", "M",  "Mn", "Mc", "Me", "N",  "Nd",
    "Nl", "No", "P",  "Pc", "Pd", "Ps", "Pe", "Pi", "Pf", "Po", "Z",  "Zs",
    "Zl", "Zp", "S",  "Sm", "Sc", "Sk", "So", "C",  "Cc", "Cf", "Co", "Cs"};

std::string inside(std::span<const Span> spans) {
  std::string text;
  for (const Span& span : spans) text += re2_range(span.first, span.last);
  return text;
}

std::string outside(std::span<const Span> spans) {
  std::string text;
  char32_t next = 0;
  for (const Span& span : spans) {
    if (span.first > next) text += re2_range(next, span.first - 1);
    next = span.last + 1;
  }
  if (next <= last_code_point) text += re2_range(next, last_code_point);
  return text;
}

// `{Lu}` or `{IsBasicLatin}` after `\p` or `\P`.
std::optional<std::string> parse_property(std::u32string_view text, std::size_t& at, bool negated) {
  const std::size_t end = text.find(U'}', at);
  if (at >= text.size() || text[at] != U'{' || end == std::u32string_view::npos) return std::nullopt;
  std::string name;
  for (const char32_t c : text.substr(at + 1, end - at - 1)) append_utf8(name, c);
  at = end + 1;
  if (name.starts_with("Is")) {
    const auto* block = std::find_if(std::begin(blocks), std::end(blocks), [&](const Block& b) {
      return b.name == std::string_view(name).substr(2);
    });
    if (block == std::end(blocks)) return std::nullopt;
    const std::array<Span, 1> span = {{{block->first, block->last}}};
    return negated ? outside(span) : inside(span);
  }
  if (std::find(categories.begin(), categories.end(), name) == categories.end()) return std::nullopt;
  return (negated ? "\\P{" : "\\p{") + name + "}";
}

}  // namespace

std::string re2_range(char32_t a, char32_t b) {
  char text[32];
  std::snprintf(text, sizeof text, a == b ? "\\x{%X}" : "\\x{%X}-\\x{%X}", static_cast<unsigned>(a),
                static_cast<unsigned>(b));
  return text;
}

std::optional<char32_t> escaped_character(char32_t letter) {
  switch (letter) {
    case 'n':
      return U'\n';
    case 'r':
      return U'\r';
    case 't':
      return U'\t';
    default:
      break;
  }
  constexpr std::u32string_view themselves = U"\\|.-^?*+{}()[]$";
  if (themselves.find(letter) != std::u32string_view::npos) return letter;
  return std::nullopt;
}

std::optional<std::string> parse_set_escape(std::u32string_view text, std::size_t& at) {
  switch (text[at++]) {
    case 's':
      return inside(white_space);
    case 'S':
      return outside(white_space);
    case 'i':
      return inside(name_start);
    case 'I':
      return outside(name_start);
    case 'c':
      return inside(name_part);
    case 'C':
      return outside(name_part);
    case 'd':
      return "\\p{Nd}";
    case 'D':
      return "\\P{Nd}";
    case 'w':
      return "\\p{L}\\p{M}\\p{N}\\p{S}";
    case 'W':
      return "\\p{P}\\p{Z}\\p{C}";
    case 'p':
      return parse_property(text, at, false);
    case 'P':
      return parse_property(text, at, true);
    default:
      return std::nullopt;
  }
}

}  // namespace engine
