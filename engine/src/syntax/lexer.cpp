#include <algorithm>
#include <array>

#include "syntax/token.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

constexpr std::array<std::string_view, 18> keywords = {
    "and",  "between", "else", "every",  "external",  "false", "for",  "function", "if",
    "in",   "instance", "null", "of",    "or",        "return", "satisfies", "some", "then"};

class Lexer {
 public:
  explicit Lexer(std::string_view text) : text_(text) {}

  Result<std::vector<Token>> run() {
    std::vector<Token> tokens;
    for (;;) {
      const bool space = skip_space();
      if (!fault_.empty()) return error();
      Token token = next();
      if (!fault_.empty()) return error();
      token.space_before = space;
      tokens.push_back(token);
      if (token.kind == Token::Kind::end) return tokens;
    }
  }

 private:
  char at(std::size_t ahead) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }
  bool digit(std::size_t ahead) const { return at(ahead) >= '0' && at(ahead) <= '9'; }

  bool skip_space() {
    const std::size_t start = at_;
    for (;;) {
      const CodePoint c = code_point_at(text_, at_);
      if (c.bytes != 0 && is_space(c.value)) {
        at_ += c.bytes;
      } else if (at(0) == '/' && at(1) == '/') {
        while (at_ < text_.size() && at(0) != '\n') ++at_;
      } else if (at(0) == '/' && at(1) == '*') {
        const std::size_t end = text_.find("*/", at_ + 2);
        if (end == std::string_view::npos) {
          fault_ = "a comment that starts with `/*` has no `*/`";
          return true;
        }
        at_ = end + 2;
      } else {
        return at_ > start;
      }
    }
  }

  Token next() {
    const std::size_t start = at_;
    const CodePoint c = code_point_at(text_, at_);
    if (c.bytes == 0) return token(Token::Kind::end, start);
    if (is_digit(c.value) || (c.value == '.' && digit(1))) return number(start);
    if (c.value == '"') return string(start);
    if (is_name_start(c.value)) {
      if (c.value == '?' && !is_name_part(code_point_at(text_, at_ + 1).value)) {
        ++at_;
        return token(Token::Kind::word, start);
      }
      do {
        at_ += code_point_at(text_, at_).bytes;
      } while (at_ < text_.size() && is_name_part(code_point_at(text_, at_).value));
      return token(Token::Kind::word, start);
    }
    return symbol(start);
  }

  Token number(std::size_t start) {
    while (digit(0)) ++at_;
    if (at(0) == '.' && digit(1)) {
      ++at_;
      while (digit(0)) ++at_;
    }
    const bool exponent = (at(0) == 'e' || at(0) == 'E') && (digit(1) || ((at(1) == '+' || at(1) == '-') && digit(2)));
    if (exponent) {
      at_ += 2;
      while (digit(0)) ++at_;
    }
    return token(Token::Kind::number, start);
  }

  Token string(std::size_t start) {
    ++at_;
    while (at_ < text_.size() && at(0) != '"') at_ += at(0) == '\\' && at_ + 1 < text_.size() ? 2 : 1;
    if (at_ >= text_.size()) {
      at_ = start;
      fault_ = "a string has no closing quote";
      return {};
    }
    ++at_;
    return token(Token::Kind::string, start);
  }

  Token symbol(std::size_t start) {
    static constexpr std::array<std::string_view, 6> pairs = {"..", "**", "<=", ">=", "!=", "->"};
    for (const std::string_view pair : pairs) {
      if (text_.substr(at_, 2) == pair) {
        at_ += 2;
        return token(Token::Kind::symbol, start);
      }
    }
    static constexpr std::string_view single = "+-*/()[]{},.:<>=@'";
    if (single.find(at(0)) == std::string_view::npos) {
      fault_ = "`" + std::string(text_.substr(at_, code_point_at(text_, at_).bytes)) + "` is not part of FEEL";
      return {};
    }
    ++at_;
    return token(Token::Kind::symbol, start);
  }

  Token token(Token::Kind kind, std::size_t start) const {
    return {kind, false, static_cast<std::uint32_t>(start), static_cast<std::uint32_t>(at_ - start),
            text_.substr(start, at_ - start)};
  }

  Error error() const {
    Error error{"syntax", fault_, {}, {}};
    error.place.column = static_cast<std::uint32_t>(at_);
    return error;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::string fault_;
};

int hexadecimal_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// The number of `digits` hexadecimal digits at `at`, or -1.
std::int64_t hexadecimal_number(std::string_view text, std::size_t at, std::size_t digits) {
  if (at + digits > text.size()) return -1;
  std::int64_t value = 0;
  for (std::size_t i = 0; i < digits; ++i) {
    const int digit = hexadecimal_digit(text[at + i]);
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
}

// Resolves the escape whose backslash stands at `at`; returns the bytes it took, 0 when it is none.
std::size_t resolve_escape(std::string_view text, std::size_t at, std::string& out) {
  if (at + 1 >= text.size()) return 0;
  switch (text[at + 1]) {
    case 'n': out += '\n'; return 2;
    case 'r': out += '\r'; return 2;
    case 't': out += '\t'; return 2;
    case '"': out += '"'; return 2;
    case '\'': out += '\''; return 2;
    case '\\': out += '\\'; return 2;
    case 'u': {
      const std::int64_t high = hexadecimal_number(text, at + 2, 4);
      if (high < 0) return 0;
      const bool pair = high >= 0xD800 && high < 0xDC00 && text.substr(at + 6, 2) == "\\u";
      const std::int64_t low = pair ? hexadecimal_number(text, at + 8, 4) : -1;
      if (low >= 0xDC00 && low < 0xE000) {
        append_utf8(out, static_cast<char32_t>(0x10000 + ((high - 0xD800) << 10) + (low - 0xDC00)));
        return 12;
      }
      const bool lone_surrogate = high >= 0xD800 && high < 0xE000;
      append_utf8(out, lone_surrogate ? 0xFFFD : static_cast<char32_t>(high));
      return 6;
    }
    case 'U': {
      const std::int64_t value = hexadecimal_number(text, at + 2, 6);
      if (value < 0 || value > 0x10FFFF) return 0;
      append_utf8(out, static_cast<char32_t>(value));
      return 8;
    }
    default:
      return 0;
  }
}

}  // namespace

Result<std::vector<Token>> tokens_of(std::string_view text) { return Lexer(text).run(); }

std::string unescaped(std::string_view token) {
  const std::string_view inner = token.substr(1, token.size() - 2);
  std::string out;
  out.reserve(inner.size());
  for (std::size_t at = 0; at < inner.size();) {
    const std::size_t taken = inner[at] == '\\' ? resolve_escape(inner, at, out) : 0;
    if (taken == 0) out += inner[at];
    at += taken == 0 ? 1 : taken;
  }
  return out;
}

bool is_keyword(std::string_view word) {
  return word == "true" || std::find(keywords.begin(), keywords.end(), word) != keywords.end();
}

}  // namespace engine
