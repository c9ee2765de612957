// Text of unknown origin, made fit to stand in a message: valid UTF-8, no control characters, not too long.

#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "engine/printable.h"
#include "syntax/unicode.h"

namespace engine {

/// The length of the UTF-8 character at `at`, or 0 when the bytes there are none (RFC 3629).
std::size_t character_length(std::string_view text, std::size_t at);

/// `printable`, and cut to `most` code points with `…` at the end.
std::string printable(std::string_view text, std::size_t most);

}  // namespace engine
