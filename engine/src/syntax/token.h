// The words of FEEL text.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"

namespace engine {

struct Token {
  enum class Kind : std::uint8_t { end, word, number, string, symbol };
  Kind kind = Kind::end;
  bool space_before = false;
  std::uint32_t start = 0;  ///< Byte offset in the text.
  std::uint32_t size = 0;   ///< Bytes.
  std::string_view text;    ///< As written, quotes included.

  bool is(std::string_view written) const {
    return (kind == Kind::symbol || kind == Kind::word) && text == written;
  }
  std::uint32_t end() const { return start + size; }
};

/// The tokens of `text`, the last of kind `end`. Comments and white space are dropped. The error has the byte offset
/// in `place.column` (from 0); the parser turns it into line and column.
Result<std::vector<Token>> tokens_of(std::string_view text);

/// The characters that a string token stands for: quotes off, escapes resolved.
std::string unescaped(std::string_view string_token);

/// True for FEEL's reserved words, `and` to `null`.
bool is_keyword(std::string_view word);

}  // namespace engine
